/** Draws the PNG icons from public/icon.svg with the Chromium that the tests drive: `npm run icons`. */
import { readFileSync } from 'node:fs'
import { join, resolve } from 'node:path'
import { launchChromium } from '../browser/launch.ts'

const folder = resolve(import.meta.dirname, '../../public')
const drawing = readFileSync(join(folder, 'icon.svg'), 'utf8')

/** Systems cut a maskable icon to a shape of their own; only a circle of 80 % of the width is sure to stay (W3C, Web App Manifest). */
const ICONS = [
  { file: 'icon-180.png', size: 180, cut: true },
  { file: 'icon-192.png', size: 192, cut: false },
  { file: 'icon-512.png', size: 512, cut: false },
  { file: 'icon-maskable-512.png', size: 512, cut: true }
]

const browser = await launchChromium()
for (const { file, size, cut } of ICONS) {
  const page = await browser.newPage({ viewport: { width: size, height: size } })
  await page.setContent(`<style>body{margin:0}svg{display:block;width:100vw;height:100vh}</style>${drawing}`)
  if (cut) {
    await page.evaluate(() => {
      document.querySelector('#ground')?.removeAttribute('rx')
      document.querySelector('#mark')?.setAttribute('transform', 'translate(32 32) scale(.8) translate(-32 -32)')
    })
  }
  await page.screenshot({ path: join(folder, file), omitBackground: true })
  await page.close()
}
await browser.close()
