/** A folder of clips with its labels.csv: file, label and, if there are, speaker and others. `-` labels other sound. */
import { readFile } from 'node:fs/promises'
import { join } from 'node:path'
import { readAudio } from './read-audio.ts'

export interface Labelled {
  readonly file: string
  /** In lower case, with single spaces. */
  readonly label: string
  readonly speaker: string
  readonly samples: Float32Array
}

export const OTHER = '-'
const NOBODY_NAMED = 'unnamed'

/** @throws Error that names the file and the line when something is missing or cannot be read. */
export async function readLabelled(folder: string): Promise<readonly Labelled[]> {
  const path = join(folder, 'labels.csv')
  const text = await readFile(path, 'utf8').catch(() => {
    throw new Error(`There is no ${path}.`)
  })
  const [head = '', ...lines] = text.replace(/^\uFEFF/, '').split(/\r\n|\r|\n/)
  const names = cells(head).map((name) => name.toLowerCase())
  const needed = (name: string) => {
    if (!names.includes(name)) throw new Error(`${path} has no column "${name}". It has: ${names.join(', ')}.`)
    return names.indexOf(name)
  }
  const [file, label, speaker] = [needed('file'), needed('label'), names.indexOf('speaker')]
  const read: Labelled[] = []
  for (const [at, line] of lines.entries()) {
    if (line.trim() === '') continue
    const where = `${path}, line ${at + 2}`
    const row = cells(line)
    const cell = (column: number, name: string) => {
      const value = row[column] ?? ''
      if (value === '') throw new Error(`${where} has no ${name}.`)
      return value
    }
    const name = cell(file, 'file')
    const said = phraseIn(cell(label, `label ("${OTHER}" is for other sound)`))
    const samples = await readAudio(join(folder, name)).catch((failure: unknown) => {
      throw new Error(`${where}: ${failure instanceof Error ? failure.message : String(failure)}`)
    })
    read.push({ file: name, label: said, speaker: row[speaker] || NOBODY_NAMED, samples })
  }
  if (read.length === 0) throw new Error(`${path} lists no file.`)
  return read
}

/** As phrases are written in the vocabulary: "Say_again" is "say again". */
function phraseIn(label: string): string {
  return label
    .normalize('NFC')
    .toLowerCase()
    .replaceAll(/[\s_]+/g, ' ')
    .trim()
}

/** Commas within double quotes belong to the cell (RFC 4180). */
function cells(line: string): readonly string[] {
  return [...`,${line}`.matchAll(/,\s*(?:"((?:[^"]|"")*)"\s*(?=,|$)|([^,]*))/g)].map(([, quoted, plain = '']) =>
    (quoted === undefined ? plain : quoted.replaceAll('""', '"')).trim()
  )
}
