/** Comma-separated values as in RFC 4180: lines end with CR LF, and fields with commas, quotes or line breaks are quoted. */

/**
 * What a spreadsheet would take for a formula or a command (OWASP, "CSV Injection"; from memory) gets an apostrophe
 * before it, and then shows as text. Plain numbers stay numbers.
 */
function field(value: string): string {
  const isFormula = /^\s*[=+\-@\uff1d\uff0b\uff0d\uff20|%]|^[\t\r\n]/.test(value) && !/^-?\d+(\.\d+)?$/.test(value)
  const safe = isFormula ? `'${value}` : value
  return /[",\r\n']|^\s|\s$/.test(safe) ? `"${safe.replaceAll('"', '""')}"` : safe
}

export function csv(rows: readonly (readonly string[])[]): string {
  return rows.map((row) => `${row.map(field).join(',')}\r\n`).join('')
}
