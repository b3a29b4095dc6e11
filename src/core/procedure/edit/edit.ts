/**
 * Changes of a procedure's text. The text is the one truth of a draft; a change goes through the document that it holds,
 * so that comments, order and the author's way of writing stay where nothing was changed.
 */
import {
  isMap,
  isNode,
  isScalar,
  isSeq,
  parseDocument,
  Scalar,
  visit,
  type Document,
  type YAMLMap,
  type YAMLSeq
} from 'yaml'
import { placeForKey } from './key-order.ts'

/** Keys and indexes from the top of the document. */
export type Path = readonly (string | number)[]

export type Edit =
  /** Writes a value, and whatever keys are missing on the way to it. */
  | { readonly kind: 'set'; readonly path: Path; readonly value: unknown }
  /** Takes a key away. */
  | { readonly kind: 'clear'; readonly path: Path }
  /** Adds to a list, which is begun where it is missing. */
  | { readonly kind: 'insert'; readonly list: Path; readonly at: number; readonly value: unknown }
  /** Takes an entry away; a list that nothing is left in goes too. */
  | { readonly kind: 'remove'; readonly list: Path; readonly at: number }
  /** `to.at` counts without the entry that is moved. */
  | { readonly kind: 'move'; readonly from: ListPlace; readonly to: ListPlace }

export interface ListPlace {
  readonly list: Path
  readonly at: number
}

export type Edited =
  | { readonly kind: 'edited'; readonly text: string }
  /** `unreadable`: the text is no YAML just now. `no-such-place`: it has nothing there that could be changed so. */
  | { readonly kind: 'refused'; readonly why: 'unreadable' | 'no-such-place' }

/** Wide enough for a part with all its keys on one line. */
const WRITTEN = { lineWidth: 120, singleQuote: true } as const
const NO_SUCH_PLACE: Edited = { kind: 'refused', why: 'no-such-place' }

/** Several changes that belong together: all of them, or none. */
export function applyEdits(text: string, edits: readonly Edit[]): Edited {
  const document = parseDocument(text, { uniqueKeys: true })
  if (document.errors.length > 0 || !isMap(document.contents)) return { kind: 'refused', why: 'unreadable' }
  commentsToEntries(document)
  for (const edit of edits) if (!apply(document, edit)) return NO_SUCH_PLACE
  return { kind: 'edited', text: document.toString(WRITTEN) }
}

/** A comment above the first entry of a list is read as one of the list; it belongs to the entry, and goes where that goes. */
function commentsToEntries(document: Document): void {
  visit(document, {
    Seq(_, list) {
      const [first] = list.items
      if (list.flow === true || !isNode(first) || !list.commentBefore || first.commentBefore) return
      first.commentBefore = list.commentBefore
      list.commentBefore = null
    }
  })
}

function apply(document: Document, edit: Edit): boolean {
  switch (edit.kind) {
    case 'set':
      return set(document, edit.path, edit.value)
    case 'clear':
      return clear(document, edit.path)
    case 'insert': {
      const list = listAt(document, edit.list) ?? begunList(document, edit.list)
      if (list === null || !isWithin(edit.at, list.items.length)) return false
      list.items.splice(edit.at, 0, document.createNode(edit.value))
      return true
    }
    case 'remove':
      return take(document, edit)
    case 'move':
      return move(document, edit.from, edit.to)
  }
}

function set(document: Document, path: Path, value: unknown): boolean {
  const key = path.at(-1)
  const holder = nodeAt(document, path.slice(0, -1)) ?? begunMap(document, path.slice(0, -1))
  if (key === undefined || holder === null) return false
  const there = isMap(holder) || isSeq(holder) ? holder.get(key, true) : undefined
  if (isScalar(there) && typeof there.value === 'string' && typeof value === 'string') {
    there.value = value
    // Only one line can be folded as it was.
    if (value.includes('\n') || value === '') there.type = Scalar.QUOTE_DOUBLE
    return true
  }
  const node = document.createNode(value)
  if (isScalar(there) && isScalar(node)) node.comment = there.comment ?? null
  if (isSeq(holder)) {
    if (!isWithin(Number(key), holder.items.length - 1)) return false
    holder.items[Number(key)] = node
    return true
  }
  if (!isMap(holder)) return false
  if (there === undefined && !holder.has(key)) {
    const pair = document.createPair(key, value)
    holder.items.splice(placeForKey(keysOf(holder), String(key)), 0, pair)
  } else holder.set(key, node)
  return true
}

function clear(document: Document, path: Path): boolean {
  const holder = nodeAt(document, path.slice(0, -1))
  return isMap(holder) && holder.delete(path.at(-1))
}

function move(document: Document, from: ListPlace, to: ListPlace): boolean {
  const isSameList = JSON.stringify(from.list) === JSON.stringify(to.list)
  const source = listAt(document, from.list)
  const target = listAt(document, to.list) ?? begunList(document, to.list)
  if (!source || !target || !isWithin(from.at, source.items.length - 1)) return false
  if (!isWithin(to.at, target.items.length - (isSameList ? 1 : 0))) return false
  const [item] = source.items.splice(from.at, 1)
  target.items.splice(to.at, 0, item)
  if (source.items.length === 0) clear(document, from.list)
  return true
}

function take(document: Document, { list, at }: ListPlace): boolean {
  const found = listAt(document, list)
  if (!found || !isWithin(at, found.items.length - 1)) return false
  found.items.splice(at, 1)
  if (found.items.length === 0) clear(document, list)
  return true
}

function nodeAt(document: Document, path: Path): unknown {
  return path.length === 0 ? document.contents : document.getIn(path, true)
}

function listAt(document: Document, path: Path): YAMLSeq | null {
  const node = nodeAt(document, path)
  return isSeq(node) ? node : null
}

/** Where a key is missing, or empty. Nothing is begun at a number: a list would become a map with that key. */
function begunMap(document: Document, path: Path): YAMLMap | null {
  if (typeof path.at(-1) === 'number' || !isFree(document, path)) return null
  return set(document, path, {}) ? (nodeAt(document, path) as YAMLMap) : null
}

function begunList(document: Document, path: Path): YAMLSeq | null {
  if (!isFree(document, path)) return null
  return set(document, path, []) ? (nodeAt(document, path) as YAMLSeq) : null
}

function isFree(document: Document, path: Path): boolean {
  const there = nodeAt(document, path)
  return path.length > 0 && (there === undefined || there === null || (isScalar(there) && there.value === null))
}

function isWithin(place: number, last: number): boolean {
  return Number.isInteger(place) && place >= 0 && place <= last
}

function keysOf(map: YAMLMap): readonly string[] {
  return map.items.map(({ key }) => String(isScalar(key) ? key.value : key))
}
