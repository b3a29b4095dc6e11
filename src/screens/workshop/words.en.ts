/** English texts of the workshop, loaded when it is opened. */
import type { FactName } from '../../core/procedure/compare/describe-step.ts'
import { count } from '../count.ts'

const FACTS: Readonly<Record<FactName, string>> = {
  say: 'Headline',
  more: 'Detail',
  why: 'Reason',
  place: 'Where',
  hands: 'Hands-on time',
  caution: 'Caution',
  confirm: 'Confirming phrase',
  'wait-kind': 'Waits for',
  'wait-least': 'Shortest wait',
  'wait-most': 'Longest wait',
  'wait-source': 'Source of the wait',
  'wait-of': 'Contact of',
  'late-say': 'When it is late',
  'late-redo': 'When it is late, back to',
  question: 'Question',
  'good-answer': 'Good answer',
  reading: 'Reading',
  least: 'At least',
  most: 'At most',
  'limit-source': 'Source of the limits',
  'held-to': 'Held to',
  counted: 'Parts counted',
  correction: 'If not',
  again: 'Repeat',
  use: 'Solutions used',
  'full-rinse': 'Full rinse',
  take: 'Takes tools',
  free: 'Puts tools back'
}

export const workshopWordsEn = {
  title: 'Procedures',
  looking: 'Looking for procedures and drafts.',
  away: 'The server cannot be reached. What is written is kept on this device and saved later.',
  failed: (why: string) => `The server answered with trouble: ${why}`,
  look: 'Look again',
  none: 'There are no procedures yet.',
  edit: 'Improve',
  goOn: 'Go on with the draft',
  versions: 'Versions',
  draftBy: (who: string, when: string) => `Draft, saved ${when}${who === '' ? '' : ` by ${who}`}`,
  newDrafts: 'New procedures in the making',
  throwAway: 'Throw the draft away',
  reallyThrowAway: 'Once more, and it is gone',
  behind:
    'This draft was begun from another version than the one that is offered now. Look at the changes: what is struck out there would be taken back.',
  fromFile: 'as it came in its file',
  publishedBy: (who: string, when: string) => `published ${when} by ${who}`,
  heldAnew: (when: string) => `held to other rules of the shop since ${when}`,
  newerFile: 'Its file says something else; the version published here takes its place. Versions shows both.',
  uses: (machine: string, site: string, runs: number, open: number) =>
    `${machine}${site === '' ? '' : `, ${site}`}: ${count(runs, 'run', 'runs')}${open === 0 ? '' : `, ${open} going on`}`,
  olderVersion: 'an older version',
  create: 'New procedure',
  createTitle: 'What is it called?',
  takeIn: 'Take in a file',
  notices: {
    published: (id: string) => `${id} is published. The next run uses it; runs that are going on keep theirs.`,
    refused: (why: string) => `Not done: ${why}`,
    'unreadable-file': 'That file says no procedure: with a short name at its beginning.'
  },
  tabs: {
    steps: 'Steps',
    head: 'Machine and lists',
    text: 'As text',
    try: 'Try it',
    changes: 'Changes',
    publish: 'Publish'
  },
  undo: 'Undo',
  redo: 'Redo',
  hearAll: 'Hear it all',
  hearStage: 'Hear this stage',
  hearStep: 'Hear this step',
  quiet: 'Be quiet',
  saveFile: 'Save as a file',
  saving: {
    saved: 'Saved.',
    unsaved: 'Saving.',
    'only-here': 'Kept on this device; the server does not have it yet.',
    'not-kept': (why: string) => `Not kept, not even on this device: ${why}`
  },
  overtaken: {
    title: 'Somebody else changed this draft',
    theirs: (who: string, when: string) =>
      `${who === '' ? 'Somebody' : who} saved it ${when}. Choose one; the other is one undo away, and nothing is lost.`,
    gone: 'It was published or thrown away meanwhile. What is written here is still here.',
    mine: 'Go on with mine',
    takeTheirs: 'Take the other',
    keepMine: 'Keep mine as a new draft',
    left: 'What the other has that mine has not'
  },
  unreadable: 'The text cannot be read just now. Mend it as text, or undo.',
  problems: {
    title: 'To look at',
    none: 'Nothing. It can be published.',
    checking: 'Looking.',
    counts: (errors: number, warnings: number) =>
      `${count(errors, 'error', 'errors')}, ${count(warnings, 'warning', 'warnings')}`,
    error: 'Error',
    warning: 'Warning',
    line: (line: number) => `line ${line}`,
    why: (reason: string, source: string) => `${reason} Source: ${source}`
  },
  stage: (number: number) => `Stage ${number}`,
  stageName: 'Name of the stage',
  addStage: 'Add a stage',
  addStep: 'Add a step after this one: what should be done?',
  add: 'Add',
  remove: 'Remove',
  removeStep: 'Remove this step',
  removeStage: 'Remove this stage',
  copyStep: 'Copy this step',
  up: 'Move up',
  down: 'Move down',
  drag: 'Drag to another place',
  listHint: 'Arrow keys choose a step, with Alt they move it, Enter goes to its words.',
  places: { 'each side': 'Each side', bench: 'Bench', 'whole machine': 'Whole machine' } as Readonly<
    Record<string, string>
  >,
  language: (tag: string) => ({ en: 'English', es: 'Spanish' })[tag] ?? tag,
  waits: (time: string) => `waits ${time}`,
  nothing: 'none',
  sections: {
    words: 'What is said',
    cautions: 'Cautions, spoken before the step',
    wait: 'Wait after the step',
    check: 'What ends the step',
    things: 'Tools and solutions',
    procedure: 'The procedure',
    sides: 'Sides',
    tools: 'Tools that only so many lanes can hold at once',
    parts: 'Loose parts',
    supplies: 'Supplies to gather',
    solutions: 'Solutions to mix'
  },
  addTo: {
    cautions: 'Add a caution',
    sides: 'Add a side',
    tools: 'Add a tool',
    parts: 'Add a part',
    supplies: 'Add a supply',
    solutions: 'Add a solution',
    'if not': 'Add what to do instead'
  },
  fields: {
    on: 'Where',
    say: 'Headline: verb first, one action',
    more: 'Detail, on request',
    why: 'Reason, on request',
    hands: 'Hands are busy for',
    confirm: 'Phrase that confirms it, near moving parts',
    signal: 'Signal word',
    hazard: 'What can hurt',
    consequence: 'What it does to you',
    avoid: 'How to keep clear',
    for: 'Wait for',
    'at least': 'At least',
    'at most': 'At most',
    of: 'Of what, for the rules of the shop',
    source: 'Where that comes from',
    late: 'When the longest time has passed',
    redo: 'Then back to',
    check: 'How it ends',
    question: 'Question',
    expect: 'Good answer',
    'if not': 'If it is not good',
    reading: 'What is measured',
    unit: 'Unit',
    parts: 'Parts that must all be there',
    going: 'Which way',
    again: 'Repeat until it is good, from',
    use: 'Solutions that come onto this place',
    rinse: 'All that was used here is rinsed off now',
    take: 'Tools taken',
    free: 'Tools put back',
    title: 'Name',
    summary: 'What it does',
    machine: 'Machine, as in its other procedures',
    'about the machine': 'How the machine is built and worked',
    languages: 'Languages, the first one is the default',
    name: 'Name',
    count: 'How many',
    per: 'For each',
    care: 'Care',
    days: 'Replace after days',
    runs: 'Replace after runs',
    amount: 'Amount',
    chemical: 'Chemical',
    directions: 'How to mix it'
  } as Readonly<Record<string, string>>,
  hints: {
    time: 'Such as 20 s, 5 min or 1 h 30 min.',
    languages: 'Tags with commas between, such as en, es.'
  },
  options: {
    none: 'none',
    ask: 'a question',
    read: 'a reading',
    count: 'a count of parts',
    yes: 'yes',
    no: 'no',
    off: 'have come off',
    on: 'have gone on',
    side: 'side',
    machine: 'machine',
    full: 'yes'
  } as Readonly<Record<string, string>>,
  textView: 'The procedure as text',
  textHint: 'The same draft as the form shows. Problems stand beside it, by line.',
  facts: FACTS,
  difference: {
    same: 'Nothing is different.',
    before: 'Before',
    after: 'Now',
    not: 'not there',
    added: 'New step',
    removed: 'Step taken out',
    changed: 'Step changed',
    moved: (behind: string | null) => (behind === null ? 'Moved to the beginning' : `Moved behind: ${behind}`),
    stages: { added: 'New stage', removed: 'Stage taken out', changed: 'Stage' },
    stageBefore: (stage: string) => `It stood in the stage: ${stage}`,
    kinds: { spoken: 'spoken', wait: 'wait', limit: 'limit', order: 'order', other: '' },
    languages: 'Languages',
    thingAdded: 'new',
    thingRemoved: 'taken out',
    seconds: (seconds: number) =>
      seconds % 60 === 0
        ? `${seconds / 60} min`
        : seconds < 60
          ? `${seconds} s`
          : `${Math.floor(seconds / 60)} min ${seconds % 60} s`,
    rounds: (from: string, least: number, most: number) => `from "${from}", ${least} to ${most} times`,
    bounds: (min: number | null, max: number | null, unit: string) =>
      min === null
        ? `${max ?? ''} ${unit} or less`
        : max === null
          ? `${min} ${unit} or more`
          : `${min} to ${max} ${unit}`,
    either: (rows: readonly string[]) => rows.join(', or '),
    together: (quantities: readonly string[]) => quantities.join(' at '),
    held: (title: string, limits: string, source: string) => `${title}: ${limits} (${source})`
  },
  noPublished: 'It has not been published yet: everything is new.',
  plan: {
    title: 'How long it takes',
    takes: (minutes: number) => `${minutes} min for one pair of hands`,
    p80: (minutes: number) => `ready within ${minutes} min on four days of five`,
    was: (minutes: number) => `the published version: ${minutes} min`,
    wasP80: (minutes: number) => `on four days of five ${minutes} min`,
    none: 'There is no order in which this can be done.',
    working: 'Working out the plan.'
  },
  trial: {
    title: 'Try it with a crew that is not there',
    begin: 'Try it',
    again: 'Try other days',
    working: 'The crew is at work.',
    broke: 'It could not be tried.',
    notSound: 'Mend the errors first.',
    day: (minutes: number) => `On a day as planned: ${minutes} min.`,
    days: (days: number, p50: number, p80: number) =>
      `On ${days} days with hands now faster, now slower: ${p50} min on half of them, ${p80} min on four of five.`,
    good: 'No longest wait was missed.',
    bad: (bad: number, days: number) => `On ${bad} of ${days} days a longest wait was missed.`,
    gaveUp: 'The crew never came to an end.',
    play: 'Play',
    stop: 'Stop',
    at: 'Minute',
    speed: (seconds: number) => `${seconds} seconds of work in one`,
    kinds: { hands: '', caution: 'Caution', 'put-right': 'Too late: put right', wait: 'waits' }
  },
  publish: {
    errors: (errors: number) => `${count(errors, 'error', 'errors')} must be mended before it can be published.`,
    reasons: 'Each warning needs a reason, which is kept with the version',
    reason: 'Why it is right all the same',
    note: 'What is better now',
    go: 'Publish',
    as: (name: string) => `It is published by ${name}.`,
    noOwner:
      'This shop has no owner yet, and only people with a password publish. The draft is kept; make an owner first.',
    people: 'People and devices',
    rules:
      'It is held to the rules that the shop has chosen. The next run uses it; runs that are going on keep theirs.',
    missing: 'A note, and a reason for each warning, are needed.'
  },
  history: {
    title: (id: string) => `Versions of ${id}`,
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
    usedBy: 'Used by',
    unused: 'No run has used it.'
  }
}

export type WorkshopWords = typeof workshopWordsEn
