/** What stands in a new part of a procedure until its author writes something better. */
export const beginWordsEn = {
  summary: "Write what it does. The maker's manual, the product label and local code come first.",
  left: 'Left',
  right: 'Right',
  stage: 'Get ready',
  gather: 'Gather the supplies on the list.',
  hazard: 'Hazard.',
  consequence: 'It can hurt you.',
  avoid: 'Keep clear of it.',
  source: 'Common practice. The product label comes first.',
  late: 'Do it anew.',
  question: 'Is it good?',
  again: 'Do this step anew.',
  reading: 'What does it read?',
  mix: 'Mix a fresh batch.',
  count: 'How many parts are there?',
  missing: 'Look for what is missing.',
  correction: 'Call the supervisor.',
  directions: 'Measure by the product label.'
}

export type BeginWords = Readonly<Record<keyof typeof beginWordsEn, string>>
