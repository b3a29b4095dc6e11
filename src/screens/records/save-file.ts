import type { TakenFile } from '../../app/device-records.ts'

/** Long enough for the slowest browser to have begun to save; then the memory is given back. */
const KEPT_MS = 60_000

/** Hands a file to the browser, which asks where to put it or puts it with its downloads. */
export function saveFile({ name, type, text }: TakenFile): void {
  const address = URL.createObjectURL(new Blob([text], { type }))
  const link = document.createElement('a')
  link.href = address
  link.download = name
  link.click()
  setTimeout(() => URL.revokeObjectURL(address), KEPT_MS)
}
