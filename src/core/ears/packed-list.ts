/** The head of our packed files: a length, and a list as JSON in UTF-16. What it tells of follows. */

const LENGTH_BYTES = 4

export function withList(list: readonly unknown[], rest: Uint8Array): Uint8Array<ArrayBuffer> {
  const json = JSON.stringify(list)
  const headBytes = LENGTH_BYTES + 2 * json.length
  const bytes = new Uint8Array(headBytes + rest.length)
  const view = new DataView(bytes.buffer)
  view.setUint32(0, json.length, true)
  for (let at = 0; at < json.length; at++) view.setUint16(LENGTH_BYTES + 2 * at, json.charCodeAt(at), true)
  bytes.set(rest, headBytes)
  return bytes
}

/** Null where the bytes do not begin with a whole list. */
export function listIn(bytes: Uint8Array): { readonly list: readonly unknown[]; readonly rest: Uint8Array } | null {
  if (bytes.length < LENGTH_BYTES) return null
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength)
  const letters = view.getUint32(0, true)
  const headBytes = LENGTH_BYTES + 2 * letters
  if (headBytes > bytes.length) return null
  let json = ''
  for (let at = 0; at < letters; at++) json += String.fromCharCode(view.getUint16(LENGTH_BYTES + 2 * at, true))
  try {
    const list: unknown = JSON.parse(json)
    return Array.isArray(list) ? { list, rest: bytes.subarray(headBytes) } : null
  } catch {
    return null
  }
}
