/** An independent recogniser as judge: Debian's pocketsphinx with its English model, knowing only the sentences at hand. */
import { spawnSync } from 'node:child_process'
import { existsSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { closedModel } from './closed-model.ts'
import { MORE_WORDS } from './more-words.ts'

const MODEL = '/usr/share/pocketsphinx/model/en-us'
const HOW = 'Install it first (on Debian: apt-get install pocketsphinx pocketsphinx-en-us).'

/** Words it knows how to say. */
export function dictionary(): ReadonlySet<string> {
  return new Set(
    dictionaryText()
      .split('\n')
      .map((line) => line.slice(0, line.indexOf(' ')).replace(/\(\d+\)$/, ''))
  )
}

function dictionaryText(): string {
  const file = join(MODEL, 'cmudict-en-us.dict')
  if (!existsSync(file)) throw new Error(`${file} is not there. ${HOW}`)
  const more = Object.entries(MORE_WORDS).map(([word, phones]) => `${word} ${phones}`)
  return [readFileSync(file, 'utf8').trimEnd(), ...more, ''].join('\n')
}

/** What it hears in each recording: one channel, 16 bits, 16 kHz. `sentences` are all it knows. */
export function recognised(
  recordings: readonly Int16Array[],
  sentences: readonly (readonly string[])[]
): readonly (readonly string[])[] {
  const folder = mkdtempSync(join(tmpdir(), 'sidecall-heard-'))
  try {
    writeFileSync(join(folder, 'closed.lm'), closedModel(sentences))
    writeFileSync(join(folder, 'words.dict'), dictionaryText())
    recordings.forEach((pcm, index) =>
      writeFileSync(join(folder, `${index}.raw`), Buffer.from(pcm.buffer, pcm.byteOffset, pcm.byteLength))
    )
    writeFileSync(join(folder, 'list'), recordings.map((_, index) => String(index)).join('\n'))
    const ran = spawnSync(
      'pocketsphinx_batch',
      [
        ...['-hmm', join(MODEL, 'en-us'), '-dict', join(folder, 'words.dict'), '-lm', join(folder, 'closed.lm')],
        ...['-adcin', 'yes', '-cepdir', folder, '-cepext', '.raw', '-ctl', join(folder, 'list')],
        ...['-hyp', join(folder, 'heard'), '-logfn', '/dev/null']
      ],
      { encoding: 'utf8', maxBuffer: 1e8 }
    )
    if (ran.status !== 0) throw new Error(`pocketsphinx_batch did not run: ${ran.error?.message ?? ran.stderr}. ${HOW}`)
    const heard = readFileSync(join(folder, 'heard'), 'utf8').split('\n')
    return recordings.map((_, index) =>
      (heard[index] ?? '')
        .replace(/\([^()]*\)$/, '')
        .split(/\s+/)
        .filter((word) => word !== '' && !word.startsWith('<') && !word.startsWith('['))
        .map((word) => word.replace(/\(\d+\)$/, ''))
    )
  } finally {
    rmSync(folder, { recursive: true, force: true })
  }
}
