/** A folder of clips with its labels.csv: file, label, speaker, take and any other columns. `-` labels other sound. */
import { readFile } from 'node:fs/promises'
import { join } from 'node:path'
import { readAudio } from './read-audio.ts'

export interface Labelled {
  readonly file: string
  readonly label: string
  readonly speaker: string
  readonly samples: Float32Array
}

export const OTHER = '-'

/** @throws Error when a column is missing or a file cannot be read. */
export async function readLabelled(folder: string): Promise<readonly Labelled[]> {
  const [head, ...lines] = (await readFile(join(folder, 'labels.csv'), 'utf8')).trim().split(/\r?\n/)
  const names = cells(head ?? '')
  const column = (name: string) => {
    const at = names.indexOf(name)
    if (at < 0) throw new Error(`${folder}/labels.csv has no column "${name}".`)
    return at
  }
  const [file, label, speaker] = [column('file'), column('label'), column('speaker')]
  const read: Labelled[] = []
  for (const line of lines.filter((one) => one.trim() !== '')) {
    const row = cells(line)
    const name = row[file] ?? ''
    read.push({
      file: name,
      label: row[label] ?? '',
      speaker: row[speaker] ?? '',
      samples: await readAudio(join(folder, name))
    })
  }
  return read
}

/** Commas within double quotes belong to the cell (RFC 4180). */
function cells(line: string): readonly string[] {
  return [...line.matchAll(/(?:^|,)(?:"((?:[^"]|"")*)"|([^,]*))/g)].map(([, quoted, plain = '']) =>
    (quoted === undefined ? plain : quoted.replaceAll('""', '"')).trim()
  )
}
