/** Shapes that say without colour what a word says beside them. Drawn on a grid of 24. */

const PATHS = {
  /** An open hand pointing right. */
  hand: 'M2 9h9.5l4.2-4.6a1.6 1.6 0 0 1 2.5 2L16 9.6h5a1.5 1.5 0 0 1 0 3h-2v.2a1.5 1.5 0 0 1-.6 2.8 1.5 1.5 0 0 1-.9 2.6 1.5 1.5 0 0 1-1.5 2.3H9L6.500 18H2z',
  /** A held note: an arc over a point. */
  wait: 'M2 15.500a10 10 0 0 1 20 0h-2.800a7.200 7.200 0 0 0-14.400 0zM12 11.800a2.600 2.600 0 1 1 0 5.200 2.600 2.600 0 0 1 0-5.200z',
  stop: 'M7.500 2h9L22 7.500v9L16.500 22h-9L2 16.500v-9zM7.500 10.500v3h9v-3z',
  bell: 'M12 2a2 2 0 0 1 2 2.200c3 .9 4.700 3.500 4.700 6.800v4.600L21 18v1.500H3V18l2.300-2.400V11c0-3.300 1.700-5.900 4.700-6.800A2 2 0 0 1 12 2zm-2.600 18.700h5.200a2.600 2.600 0 0 1-5.200 0z',
  cross:
    'M5.600 3 12 9.400 18.400 3 21 5.600 14.600 12l6.400 6.400-2.600 2.600L12 14.600 5.600 21 3 18.400 9.400 12 3 5.600z',
  tick: 'M9.400 19.500 2.600 12.700l2.500-2.500 4.300 4.300L18.900 5l2.500 2.500z',
  triangle:
    'M12 2 23.500 21.500H.5zM10.600 8.500l.5 7h1.800l.5-7zM12 16.800a1.500 1.500 0 1 0 0 3 1.500 1.500 0 0 0 0-3z',
  bars: 'M4 2h4v20H4zM12 2h8v20h-8z',
  ready: 'M5 3l15 9-15 9z',
  erase:
    'M8 4h14v16H8L1.500 12zM11 7.600 9.400 9.200l2.800 2.800-2.800 2.800L11 16.400l2.800-2.800 2.800 2.800 1.600-1.600-2.800-2.800 2.800-2.800-1.600-1.600-2.800 2.800z',
  /** An arrow that turns back. */
  back: 'M9 3v5h6a6.500 6.500 0 0 1 0 13H6v-3.500h9a3 3 0 0 0 0-6H9v5L1.500 9.800z',
  speech: 'M3 3h18v13h-9l-5.500 5V16H3z'
} as const

export type SymbolName = keyof typeof PATHS

export function Symbol({ name }: { readonly name: SymbolName }) {
  return (
    <svg class="symbol" viewBox="0 0 24 24" aria-hidden="true" focusable="false">
      <path fill="currentColor" fill-rule="evenodd" d={PATHS[name]} />
    </svg>
  )
}
