/** English texts about the versions of a procedure. */

export const historyWordsEn = {
  title: (name: string) => `Versions: ${name}`,
  offered: 'offered now',
  file: 'from its file',
  neverPublished: (when: string) => `came with its file ${when}`,
  entry: (when: string, who: string) => `${when}, ${who === '' ? 'held to other rules' : who}`,
  accepted: (rule: string, reason: string) => `In spite of ${rule}: ${reason}`,
  compare: 'Compare',
  older: 'From',
  newer: 'To',
  goBack: 'Publish this one again',
  goBackNote: 'Why',
  putAway: 'No longer offer it',
  putAwayHint:
    'It then stands on no first screen, and nothing of it is due. Its versions, its records and runs that are going on stay.',
  reallyPutAway: 'Take it off the list',
  usedBy: 'Used by',
  unused: 'No run has used it.'
}

export type HistoryWords = typeof historyWordsEn
