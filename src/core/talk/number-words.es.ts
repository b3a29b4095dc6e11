/** Numerals as Spanish words. Decimals are read figure by figure, after "punto" or "coma" as written. */

/** 0 to 29, each at its own place. */
export const SMALL_ES: readonly string[] = [
  ...['cero', 'uno', 'dos', 'tres', 'cuatro', 'cinco', 'seis', 'siete', 'ocho', 'nueve', 'diez'],
  ...['once', 'doce', 'trece', 'catorce', 'quince', 'dieciséis', 'diecisiete', 'dieciocho', 'diecinueve'],
  ...['veinte', 'veintiuno', 'veintidós', 'veintitrés', 'veinticuatro', 'veinticinco', 'veintiséis'],
  ...['veintisiete', 'veintiocho', 'veintinueve']
]
export const TENS_ES = [
  '',
  '',
  'veinte',
  'treinta',
  'cuarenta',
  'cincuenta',
  'sesenta',
  'setenta',
  'ochenta',
  'noventa'
]
/** As they stand before another number; a hundred by itself is "cien". */
export const HUNDREDS_ES = [
  ...['', 'ciento', 'doscientos', 'trescientos', 'cuatrocientos', 'quinientos'],
  ...['seiscientos', 'setecientos', 'ochocientos', 'novecientos']
]

/** What follows the number: nothing ("uno"), a masculine noun ("un minuto") or a feminine one ("una hora"). */
export type Counted = 'nothing' | 'masculine' | 'feminine'

/** A comma before exactly three figures parts thousands, as in Mexico and the United States; any other is a decimal comma. */
export function numberWordsEs(numeral: string, counted: Counted = 'nothing'): string {
  const [, whole = '', mark, decimals = ''] = /^([\d,]*?)(?:([.,])(\d+))?$/.exec(withoutThousands(numeral)) ?? []
  const isPlain = mark === undefined
  const said =
    whole.length > 6 || /^0\d/.test(whole) ? figures(whole) : wholeWords(Number(whole), isPlain ? counted : 'nothing')
  return isPlain ? said : `${said} ${mark === ',' ? 'coma' : 'punto'} ${figures(decimals)}`
}

function withoutThousands(numeral: string): string {
  return numeral.replaceAll(/(?<=\d),(?=\d{3}(?!\d))/g, '')
}

function figures(numeral: string): string {
  return Array.from(numeral, (figure) => SMALL_ES[Number(figure)]).join(' ')
}

/** 0 to 999,999. */
function wholeWords(value: number, counted: Counted): string {
  if (value < 1000) return below1000(value, counted)
  const [thousands, rest] = [Math.floor(value / 1000), value % 1000]
  const front =
    thousands === 1 ? 'mil' : `${below1000(thousands, counted === 'feminine' ? 'feminine' : 'masculine')} mil`
  return rest === 0 ? front : `${front} ${below1000(rest, counted)}`
}

function below1000(value: number, counted: Counted): string {
  if (value === 100) return 'cien'
  const [hundreds, rest] = [Math.floor(value / 100), value % 100]
  const front = (HUNDREDS_ES[hundreds] ?? '').replace(/tos$/, counted === 'feminine' ? 'tas' : 'tos')
  if (hundreds === 0) return below100(rest, counted)
  const gendered = hundreds === 5 && counted === 'feminine' ? 'quinientas' : front
  return rest === 0 ? gendered : `${gendered} ${below100(rest, counted)}`
}

function below100(value: number, counted: Counted): string {
  const said =
    value < 30
      ? (SMALL_ES[value] ?? '')
      : `${TENS_ES[Math.floor(value / 10)] ?? ''}${value % 10 === 0 ? '' : ` y ${SMALL_ES[value % 10] ?? ''}`}`
  if (counted === 'nothing' || !said.endsWith('uno')) return said
  if (counted === 'feminine') return `${said.slice(0, -1)}a`
  return said === 'veintiuno' ? 'veintiún' : said.slice(0, -1)
}
