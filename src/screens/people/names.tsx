import './people.css'
import { useEffect, useState } from 'preact/hooks'
import type { NameCheckOutcome, PeopleDesk } from '../../app/people-desk.ts'
import type { NameListing } from '../../app/people-desk.ts'
import { Press } from '../parts/press.tsx'
import { useSurroundings } from '../surroundings.ts'
import { useStore } from '../use-store.ts'
import { PinPad } from './pin-pad.tsx'
import { peopleWordsEn as texts } from './words.en.ts'

/** Who is at the machine, by one touch, and a PIN where there is one. Nothing here keeps anybody from cleaning. */
export function Names() {
  const { app } = useSurroundings()
  const [desk, setDesk] = useState<PeopleDesk | null>(null)
  useEffect(() => {
    let isHere = true
    const find = async () => {
      const found = await app.people()
      await found.lookNames()
      if (isHere) setDesk(found)
    }
    void find().catch(() => undefined)
    return () => {
      isHere = false
    }
  }, [app])
  return desk && <NamesOf desk={desk} />
}

function NamesOf({ desk }: { readonly desk: PeopleDesk }) {
  const { app } = useSurroundings()
  const settings = useStore(app.$settings)
  const names = useStore(desk.$names)
  const [outcome, setOutcome] = useState<NameCheckOutcome | null>(null)
  if (names.length === 0) return null
  const chosen = names.find(({ id, name }) => id === settings.person?.id && name === settings.operator.trim())
  const isChecked = (settings.person?.check ?? null) !== null

  function choose({ id, name }: NameListing): void {
    setOutcome(null)
    if (id !== chosen?.id) app.$settings.set({ ...settings, operator: name, person: { id, name, check: null } })
  }

  async function check(person: NameListing, pin: string): Promise<void> {
    const checked = await desk.checkPin(person.id, pin)
    setOutcome(checked)
    if (checked.kind !== 'right') return
    const { id, name } = person
    app.$settings.set({
      ...app.$settings.get(),
      operator: name,
      person: { id, name, check: { id: checked.check, at: app.now() } }
    })
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
          {isChecked ? texts.pinRight : outcome === null ? texts.pinOpen(chosen.hasPin) : outcomeWords(outcome)}
        </p>
      )}
    </section>
  )
}

function outcomeWords(outcome: NameCheckOutcome): string {
  switch (outcome.kind) {
    case 'right':
      return texts.pinRight
    case 'away':
      return texts.pinAway
    case 'refused':
      return outcome.why
  }
}
