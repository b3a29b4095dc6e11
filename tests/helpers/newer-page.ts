/** Another version of the built page, as a later build would leave it. */
import { cpSync, mkdtempSync, readFileSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { pageFilesIn } from '../../vite.page-files.ts'

/** A copy of the built page in a folder of its own, under another title. Whoever asks for it deletes it. */
export function newerPage(built: string, title: string): string {
  const folder = mkdtempSync(join(tmpdir(), 'sidecall-newer-page-'))
  // Without the compressed copies, which would go on being those of the older version.
  cpSync(built, folder, { recursive: true, filter: (file) => !file.endsWith('.br') })
  const before = pageFilesIn(folder)
  replaceIn(join(folder, 'index.html'), '<title>Sidecall</title>', `<title>${title}</title>`)
  const after = pageFilesIn(folder)
  const worker = join(folder, 'service-worker.js')
  replaceIn(worker, before.name, after.name)
  for (const [place, { integrity }] of before.files.entries()) {
    replaceIn(worker, integrity, after.files[place]?.integrity ?? '')
  }
  return folder
}

function replaceIn(file: string, old: string, fresh: string): void {
  const text = readFileSync(file, 'utf8')
  if (!text.includes(old)) throw new Error(`${file} has no "${old}".`)
  writeFileSync(file, text.replace(old, fresh))
}
