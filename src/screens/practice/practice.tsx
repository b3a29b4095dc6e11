import { useEffect } from 'preact/hooks'
import { TAKES_WANTED, type PracticeRoom } from '../../app/practice-room.ts'
import { Choice } from '../parts/field.tsx'
import { Press } from '../parts/press.tsx'
import { useSurroundings } from '../surroundings.ts'
import { useTexts } from '../texts.ts'
import { useStore } from '../use-store.ts'
import './practice.css'
import { practiceWordsEn } from './words.en.ts'

/** Three takes of each phrase, one phrase after another without a touch between them. */
export function Practice({ room }: { readonly room: PracticeRoom }) {
  const words = useTexts('practice', practiceWordsEn)
  const { app } = useSurroundings()
  const takes = useStore(room.$takes)
  const practising = useStore(room.$practising)
  const learned = useStore(room.$learned)
  const sharing = useStore(room.$sharing)
  const { operator } = useStore(app.$settings)
  useEffect(() => room.stop, [room])
  const count = (phrase: string) => takes.get(phrase) ?? 0
  const first = room.phrases.find((phrase) => count(phrase) < TAKES_WANTED) ?? room.phrases[0] ?? ''
  return (
    <main class="page">
      <header class="page-head">
        <h1>{words.title}</h1>
        <p>{words.whose(operator)}</p>
      </header>
      <p class="state-note">{words.about}</p>
      {practising ? (
        <section class="practice-now" aria-live="polite">
          <p class="practice-say">{words.say(practising.words)}</p>
          <meter class="practice-level" aria-label={words.level} min={0} max={1} high={0.98} value={practising.peak} />
          <p>{words.takes(count(practising.words), TAKES_WANTED)}</p>
          <p role="status">{practising.notice && words.notice(practising.notice)}</p>
          <Press onPress={room.stop}>{words.stop}</Press>
        </section>
      ) : (
        <Press onPress={() => room.start(first)}>{words.start}</Press>
      )}
      <ul class="practice-list">
        {room.phrases.map((phrase) => (
          <li key={phrase}>
            <Press onPress={() => room.start(phrase)}>{words.practise(phrase)}</Press>
            <span>{words.takes(count(phrase), TAKES_WANTED)}</span>
            {count(phrase) > 0 && (
              <button
                type="button"
                aria-label={words.forget(phrase)}
                onClick={() => {
                  void room.forget(phrase)
                }}
              >
                {words.forgetShort}
              </button>
            )}
          </li>
        ))}
      </ul>
      {learned > 0 && <Press onPress={() => void room.forgetLearned()}>{words.forgetLearned(learned)}</Press>}
      {takes.size > 0 && (
        <Choice
          label={words.sharing}
          value={sharing === 'shared' || sharing === 'to-be-shared' ? 'yes' : 'no'}
          options={[
            ['no', words.shareNot],
            ['yes', words.share]
          ]}
          onValue={(value) => void room.share(value === 'yes')}
        />
      )}
      {sharing !== null && <p role="status">{words.whereKept(sharing)}</p>}
      {takes.size > 0 && <Press onPress={() => void room.forget(null)}>{words.forgetAll}</Press>}
      <Press onPress={() => void app.backToChoice()}>{words.back}</Press>
    </main>
  )
}
