/** Shows how a text is said, and says it into a file: `npm run speak -- "Fill in 7.6 L." [--language es] [--out said.wav]`. */
import { writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { parseArgs } from 'node:util'
import { loadPronunciations } from '../../server/speech/load-pronunciations.ts'
import { openRenderer } from '../../server/speech/render-clip.ts'
import { likelyLanguage, talkIn } from '../../src/core/talk/languages.ts'

const { values, positionals } = parseArgs({
  allowPositionals: true,
  options: { language: { type: 'string', default: 'en' }, out: { type: 'string' } }
})
const { pronunciations, faults } = await loadPronunciations(join(import.meta.dirname, '../../procedures/speech'))
for (const { file, problems } of faults)
  for (const { what, mend } of problems) console.error(`${file}: ${what} ${mend}`)
const spoken = (await talkIn(likelyLanguage([values.language]))).speakable(positionals.join(' '), pronunciations)
console.log(spoken)
if (values.out !== undefined) {
  const clip = values.language.startsWith('en') ? await (await openRenderer())(spoken) : null
  if (clip) writeFileSync(values.out, clip.bytes)
  else console.error('No voice of ours speaks that; a device says it with its own.')
  if (!clip) process.exitCode = 1
}
