/** Whether what arrived is what was asked for: a procedure version is named by the SHA-256 of its canonical bytes. */
export async function isContentOf(hash: string, bytes: ArrayBuffer): Promise<boolean> {
  // Browsers offer no digest over plain http to another machine; there the server's word has to do.
  const subtle = globalThis.crypto.subtle as SubtleCrypto | undefined
  if (!subtle) return true
  const digest = new Uint8Array(await subtle.digest('SHA-256', bytes))
  return Array.from(digest, (byte) => byte.toString(16).padStart(2, '0')).join('') === hash
}
