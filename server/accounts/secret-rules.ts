/** What a password or a PIN must be at least. Null: it will do; otherwise what to choose instead. */
import { nameKey } from './person.ts'

/** OWASP ASVS 5.0, 6.2.1 asks for 8 at least and recommends 15; 6.2.9 that 64 and more are taken. */
const SHORTEST_PASSWORD = 10
const LONGEST_PASSWORD = 200
const FEWEST_KINDS = 5

export function whyNoPassword(password: string, name: string): string | null {
  const letters = Array.from(password)
  if (letters.length < SHORTEST_PASSWORD)
    return `Choose at least ${SHORTEST_PASSWORD} characters. Three or four words are easy to remember.`
  if (letters.length > LONGEST_PASSWORD) return `Choose at most ${LONGEST_PASSWORD} characters.`
  if (new Set(letters).size < FEWEST_KINDS) return 'Choose one with more different characters.'
  const key = nameKey(password)
  const guessable = ['sidecall', 'password', ...nameKey(name).split(' ')].filter((word) => word.length >= 3)
  // What is left after the words that anybody would try first.
  const rest = guessable.reduce((left, word) => left.replaceAll(word, ''), key)
  if (Array.from(rest).length < SHORTEST_PASSWORD - 2 && rest !== key)
    return 'Choose one without your name, "password" or "Sidecall".'
  return null
}

/** Says who somebody is, no more: that is why four digits will do. */
export function whyNoPin(pin: string): string | null {
  if (!/^\d{4,8}$/.test(pin)) return 'Choose 4 to 8 digits.'
  const steps = new Set(
    Array.from(pin)
      .slice(1)
      .map((digit, index) => Number(digit) - Number(pin[index]))
  )
  const [step] = steps
  if (steps.size === 1 && step !== undefined && Math.abs(step) <= 1)
    return 'Choose digits that are not all alike and not in a row.'
  return null
}
