/** Every Spanish text of the screens, as the one piece that is loaded. */
import { dueWordsEs } from '../core/due/words.es.ts'
import { recordWordsEs } from '../core/record/words.es.ts'
import { sanitizerWordsEs } from '../core/sanitizer/words.es.ts'
import { chooseWordsEs, settingsWordsEs } from './choose/words.es.ts'
import { damagedWordsEs } from './damaged/words.es.ts'
import { gatherWordsEs } from './gather/words.es.ts'
import { peopleWordsEs } from './people/words.es.ts'
import { practiceWordsEs } from './practice/words.es.ts'
import { recordsScreenWordsEs } from './records/words.es.ts'
import { panelWordsEs } from './run/panel-words.es.ts'
import { sumsWordsEs } from './sums/words.es.ts'
import type { Texts } from './texts.ts'
import { screenWordsEs } from './words.es.ts'
import { workshopWordsEs } from './workshop/words.es.ts'

export const textsEs: Texts = {
  screens: screenWordsEs,
  panels: panelWordsEs,
  choose: chooseWordsEs,
  settings: settingsWordsEs,
  gather: gatherWordsEs,
  damaged: damagedWordsEs,
  practice: practiceWordsEs,
  people: peopleWordsEs,
  records: recordsScreenWordsEs,
  record: recordWordsEs,
  due: dueWordsEs,
  sums: sumsWordsEs,
  sanitizer: sanitizerWordsEs,
  workshop: workshopWordsEs
}
