import { dueWordsEn } from '../../src/core/due/words.en.ts'
import { recordWordsEn } from '../../src/core/record/words.en.ts'
import { sanitizerWordsEn } from '../../src/core/sanitizer/words.en.ts'
import { chooseWordsEn, settingsWordsEn } from '../../src/screens/choose/words.en.ts'
import { damagedWordsEn } from '../../src/screens/damaged/words.en.ts'
import { gatherWordsEn } from '../../src/screens/gather/words.en.ts'
import { peopleWordsEn } from '../../src/screens/people/words.en.ts'
import { practiceWordsEn } from '../../src/screens/practice/words.en.ts'
import { recordsScreenWordsEn } from '../../src/screens/records/words.en.ts'
import { panelWordsEn } from '../../src/screens/run/panel-words.en.ts'
import { sumsWordsEn } from '../../src/screens/sums/words.en.ts'
import type { Texts } from '../../src/screens/texts.ts'
import { screenWordsEn } from '../../src/screens/words.en.ts'
import { workshopWordsEn } from '../../src/screens/workshop/words.en.ts'

/** On the page each comes with its screen. */
export const textsEn: Texts = {
  screens: screenWordsEn,
  panels: panelWordsEn,
  choose: chooseWordsEn,
  settings: settingsWordsEn,
  gather: gatherWordsEn,
  damaged: damagedWordsEn,
  practice: practiceWordsEn,
  people: peopleWordsEn,
  records: recordsScreenWordsEn,
  record: recordWordsEn,
  due: dueWordsEn,
  sums: sumsWordsEn,
  sanitizer: sanitizerWordsEn,
  workshop: workshopWordsEn
}
