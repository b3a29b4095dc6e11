/**
 * An iCalendar feed (RFC 5545). Instants are written in UTC, so that no calendar has to know a zone; a program for
 * calendars shows them by its owner's clock.
 */
import { shopStamp } from '../time/shop-stamp.ts'

export interface Dated {
  /** The same for the same thing, so that a calendar moves it instead of adding another. */
  readonly uid: string
  /** Epoch ms. */
  readonly from: number
  readonly to: number
  readonly title: string
  readonly text: string
}

const MOST_OCTETS = 75

/** `at` is when the feed was made, epoch ms. */
export function calendar(name: string, items: readonly Dated[], at: number): string {
  const lines = [
    'BEGIN:VCALENDAR',
    'VERSION:2.0',
    'PRODID:-//Sidecall//Due//EN',
    'METHOD:PUBLISH',
    // Not in RFC 5545, but what calendars show a feed's name from.
    `X-WR-CALNAME:${escaped(name)}`,
    ...items.flatMap(({ uid, from, to, title, text }) => [
      'BEGIN:VEVENT',
      `UID:${escaped(uid)}`,
      `DTSTAMP:${utc(at)}`,
      `DTSTART:${utc(from)}`,
      `DTEND:${utc(to)}`,
      `SUMMARY:${escaped(title)}`,
      `DESCRIPTION:${escaped(text)}`,
      'TRANSP:TRANSPARENT',
      'END:VEVENT'
    ]),
    'END:VCALENDAR'
  ]
  return lines.map((line) => `${folded(line)}\r\n`).join('')
}

/** Section 3.3.5, form 2. */
function utc(at: number): string {
  return `${shopStamp(at, 'UTC').slice(0, 19).replaceAll(/[-:]/g, '')}Z`
}

/** Section 3.3.11. Control characters have no place in it. */
function escaped(text: string): string {
  return text
    .replaceAll(/[\\;,]/g, String.raw`\$&`)
    .replaceAll(/\r\n|\r|\n/g, String.raw`\n`)
    .replaceAll(/\p{Cc}/gu, ' ')
}

/** Section 3.1: at most 75 octets a line, never in the middle of a character; the next begins with a space. */
function folded(line: string): string {
  const lines: string[] = []
  let [now, octets] = ['', 0]
  for (const character of line) {
    const more = octetsOf(character)
    if (octets + more > MOST_OCTETS) {
      lines.push(now)
      ;[now, octets] = [' ', 1]
    }
    now += character
    octets += more
  }
  return [...lines, now].join('\r\n')
}

/** In UTF-8 (RFC 3629, 3). */
function octetsOf(character: string): number {
  const code = character.codePointAt(0) ?? 0
  return code < 0x80 ? 1 : code < 0x800 ? 2 : code < 0x10000 ? 3 : 4
}
