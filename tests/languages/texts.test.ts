/** Every text of the page and of a run exists in each language, says what its English says of, and is no leftover of it. */
import { describe, expect, it } from 'vitest'
import { beginWordsEn } from '../../src/core/procedure/edit/words.en.ts'
import { beginWordsEs } from '../../src/core/procedure/edit/words.es.ts'
import { talkIn } from '../../src/core/talk/languages.ts'
import { textsEs } from '../../src/screens/texts.es.ts'
import { CALLS } from './calls.ts'
import { textsEn } from './english-texts.ts'
import { keysIn, pairsIn } from './walk-texts.ts'

const [english, spanish] = await Promise.all([talkIn('en'), talkIn('es')])
const inEnglish = { begin: beginWordsEn, talk: english.words, soundCheck: english.soundCheck, ...textsEn }
const inSpanish = { begin: beginWordsEs, talk: spanish.words, soundCheck: spanish.soundCheck, ...textsEs }
const pairs = pairsIn(inEnglish, inSpanish, CALLS)

/** The same in both: names, signs, figures, and words that the languages share. */
const ALIKE =
  /^(?:talk\.(?:lane|pieces|caution|partAt|signal|phrase|quantityIn|limits|list|answeredYesNo\.no)|screens\.(?:name|act\.no)|panels\.(?:transcript\.sidecall|finished\.reading)|records\.(?:trends\.readings\.\[pH\]|refused)|record\.(?:seconds|minutesSeconds|replaced|no)|due\.entry|gather\.pieces|choose\.sides|sums\.measured\.ph|people\.(?:pin|signedInAs|roles\.supervisor|makeRole)|workshop\.(?:language|options\.(?:no|ph)|difference\.seconds)|sanitizer\.(?:counted|dose|measure|makes)|talk\.readBack)$/
const ENGLISH_WORDS =
  /(?<!\p{L})(?:the|and|of|is|are|was|not|with|this|that|you|your|for|it|to|by|from|has|have|will)(?!\p{L})/iu
/** Both languages name themselves there, and programs their own commands. */
const MIXED = /^(?:screens\.language|records\.server|records\.calendar)$/

describe('Spanish', () => {
  it('has exactly the texts that English has', () => {
    expect(keysIn(inSpanish)).toEqual(keysIn(inEnglish))
  })

  it('is worth the walk', () => {
    expect(pairs.length).toBeGreaterThan(600)
  })

  it.each(pairs)('$name: $other', ({ name, english: said, other, gaps }) => {
    expect(said, 'call it with arguments that it knows').not.toMatch(/undefined|NaN|null/)
    expect(other).not.toMatch(/undefined|NaN|null|\[object/)
    expect(gaps.filter((gap) => !other.toLowerCase().includes(gap.toLowerCase()))).toEqual([])
    if (!MIXED.test(name)) expect(other).not.toMatch(ENGLISH_WORDS)
    if (/\p{L}{2}/u.test(said.replaceAll(/X\wx/gi, '')) && !ALIKE.test(name)) expect(other).not.toBe(said)
  })
})
