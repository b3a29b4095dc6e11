import './people.css'
import { useState } from 'preact/hooks'
import type { ChosenPerson } from '../../app/settings.ts'
import type { NameCheckOutcome, NameListing, PeopleDesk } from '../../app/people-desk.ts'
import { Press } from '../parts/press.tsx'
import { useSurroundings } from '../surroundings.ts'
import { useStore } from '../use-store.ts'
import { PinPad } from './pin-pad.tsx'
import { usePeople } from './use-people.ts'
import { usePeopleWords } from './use-people-words.ts'
import type { PeopleWords } from './words.en.ts'

export interface NamesProps {
  /** The name as it stands, which may be typed. */
  readonly name: string
  /** Whom of the shop's people it was chosen from last. */
  readonly person: ChosenPerson | null
  readonly onChoose: (person: ChosenPerson) => void
}

/** Who is at the machine, by one touch, and a PIN where there is one. Nothing here keeps anybody from cleaning. */
export function Names(props: NamesProps) {
  const desk = usePeople('lookNames')
  return desk && <NamesOf desk={desk} {...props} />
}

function NamesOf({ desk, name, person, onChoose }: NamesProps & { readonly desk: PeopleDesk }) {
  const texts = usePeopleWords()
  const { app } = useSurroundings()
  const names = useStore(desk.$names)
  const [outcome, setOutcome] = useState<NameCheckOutcome | null>(null)
  if (names.length === 0) return null
  const chosen = names.find((one) => one.id === person?.id && one.name === name.trim())
  const isChecked = (person?.check ?? null) !== null

  function choose(one: NameListing): void {
    setOutcome(null)
    if (one.id !== chosen?.id) onChoose({ id: one.id, name: one.name, check: null })
  }

  async function check(one: NameListing, pin: string): Promise<void> {
    const checked = await desk.checkPin(one.id, pin)
    setOutcome(checked)
    if (checked.kind === 'right') onChoose({ id: one.id, name: one.name, check: { id: checked.check, at: app.now() } })
  }

  return (
    <section class="people-part" aria-label={texts.whoTitle}>
      <h2>{texts.whoTitle}</h2>
      <div class="people-choices">
        {names.map((one) => (
          <Press key={one.id} size="work" pressed={one.id === chosen?.id} onPress={() => choose(one)}>
            {one.name}
          </Press>
        ))}
      </div>
      {chosen?.hasPin && !isChecked && (
        <PinPad key={chosen.id} name={chosen.name} onPin={(pin) => check(chosen, pin)} />
      )}
      {chosen && (
        <p role="status">
          {isChecked ? texts.pinRight : outcome === null ? texts.pinOpen(chosen.hasPin) : outcomeWords(outcome, texts)}
        </p>
      )}
    </section>
  )
}

function outcomeWords(outcome: NameCheckOutcome, texts: PeopleWords): string {
  switch (outcome.kind) {
    case 'right':
      return texts.pinRight
    case 'away':
      return texts.pinAway
    case 'refused':
      return outcome.why
  }
}
