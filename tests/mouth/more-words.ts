/**
 * How words are said that the recogniser's own dictionary (CMUdict) lacks, in its phones. Put together from its entries for
 * their relatives (sanitize, scale, rinse, wash, use, strain, bleach, grease), by ear.
 */
export const MORE_WORDS: Readonly<Record<string, string>> = {
  bleaches: 'B L IY CH AH Z',
  "bowl's": 'B OW L Z',
  chalky: 'CH AO K IY',
  curdles: 'K ER D AH L Z',
  descale: 'D IY S K EY L',
  descaler: 'D IY S K EY L ER',
  diffuser: 'D IH F Y UW Z ER',
  diffusers: 'D IH F Y UW Z ER Z',
  flavour: 'F L EY V ER',
  greases: 'G R IY S AH Z',
  handwashing: 'HH AE N D W AA SH IH NG',
  plungers: 'P L AH N JH ER Z',
  quat: 'K W AA T',
  rinsed: 'R IH N S T',
  sanitizer: 'S AE N AH T AY Z ER',
  sanitizes: 'S AE N AH T AY Z AH Z',
  sidecall: 'S AY D K AO L',
  strainer: 'S T R EY N ER',
  strainers: 'S T R EY N ER Z',
  unsanitized: 'AH N S AE N AH T AY Z D',
  unscrew: 'AH N S K R UW'
}
