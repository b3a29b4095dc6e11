/**
 * Practised takes in little space, for keeping them elsewhere: a length, a list as JSON in UTF-16, then each band power as
 * one byte on a logarithmic scale. A third of a decibel is far less than one take differs from the next.
 */
import type { Takes } from './phrasebook.ts'
import { listIn, withList } from './packed-list.ts'
import { BANDS } from './sound.ts'

interface Entry {
  readonly words: string
  /** Frames of speech and of room, by take. */
  readonly frames: readonly (readonly [speech: number, room: number])[]
}

/** Every phrase with three takes has about a third of it. */
export const MOST_VOICE_BYTES = 1_500_000

/** The header in which the server tells the revision of a voice. */
export const VOICE_REVISION = 'voice-revision'

const LOWEST_DB = -30
const STEP_DB = 2 / 3
const LARGEST = 255

export function packedTakes(all: readonly Takes[]): Uint8Array<ArrayBuffer> {
  const list = all.map(({ words, takes }): Entry => ({
    words,
    frames: takes.map(({ speech, room }) => [speech.length / BANDS, room.length / BANDS])
  }))
  const powers = all.flatMap(({ takes }) => takes.flatMap(({ speech, room }) => [speech, room]))
  const levels = new Uint8Array(powers.reduce((sum, { length }) => sum + length, 0))
  let at = 0
  for (const some of powers) {
    levels.set(some.map(levelOf), at)
    at += some.length
  }
  return withList(list, levels)
}

/** Null where the bytes are not what `packedTakes` makes. */
export function unpackedTakes(bytes: Uint8Array): readonly Takes[] | null {
  const found = listIn(bytes)
  if (!found?.list.every(isEntry)) return null
  const frames = found.list.flatMap((entry) => entry.frames.flat())
  if (frames.reduce((sum, count) => sum + count, 0) * BANDS !== found.rest.length) return null
  let at = 0
  const next = (count: number) => Float32Array.from(found.rest.subarray(at, (at += count * BANDS)), powerOf)
  return found.list.map(({ words, frames: takes }) => ({
    words,
    takes: takes.map(([speech, room]) => ({ speech: next(speech), room: next(room) }))
  }))
}

function isEntry(value: unknown): value is Entry {
  if (typeof value !== 'object' || value === null) return false
  const { words, frames } = value as Record<string, unknown>
  return typeof words === 'string' && Array.isArray(frames) && frames.every(isPair)
}

function isPair(value: unknown): boolean {
  return Array.isArray(value) && value.length === 2 && value.every((count) => Number.isInteger(count) && count > 0)
}

function levelOf(power: number): number {
  const level = (10 * Math.log10(Math.max(power, 1e-30)) - LOWEST_DB) / STEP_DB
  return Math.min(LARGEST, Math.max(0, Math.round(level)))
}

function powerOf(level: number): number {
  return 10 ** ((level * STEP_DB + LOWEST_DB) / 10)
}
