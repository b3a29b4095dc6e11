import { useState } from 'preact/hooks'
import { Press } from '../parts/press.tsx'
import { Symbol } from '../parts/symbol.tsx'
import { usePeopleWords } from './use-people-words.ts'

const DIGITS = ['1', '2', '3', '4', '5', '6', '7', '8', '9', '0'] as const
const SHORTEST = 4
const LONGEST = 8

export interface PinPadProps {
  readonly name: string
  readonly onPin: (pin: string) => Promise<void>
}

/** Large keys, for wet fingers. What was typed shows as dots. */
export function PinPad({ name, onPin }: PinPadProps) {
  const texts = usePeopleWords()
  const [pin, setPin] = useState('')
  const [sending, setSending] = useState(false)

  function send(): void {
    setSending(true)
    setPin('')
    void onPin(pin).finally(() => setSending(false))
  }

  return (
    <div class="pin-pad" role="group" aria-label={texts.pinOf(name)}>
      <p class="pin-shown" aria-label={texts.pinTyped(pin.length)}>
        {pin === '' ? '–' : '●'.repeat(pin.length)}
      </p>
      {DIGITS.map((digit) => (
        <Press key={digit} size="work" onPress={() => setPin((typed) => `${typed}${digit}`.slice(0, LONGEST))}>
          {digit}
        </Press>
      ))}
      <Press
        size="work"
        label={texts.pinErase}
        disabled={pin === ''}
        onPress={() => setPin((typed) => typed.slice(0, -1))}
      >
        <Symbol name="erase" />
      </Press>
      <Press size="work" disabled={sending || pin.length < SHORTEST} onPress={send}>
        {texts.pinCheck}
      </Press>
    </div>
  )
}
