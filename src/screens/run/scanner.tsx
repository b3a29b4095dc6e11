import { useEffect } from 'preact/hooks'
import { SCAN_ROUNDS } from '../../app/scan.ts'
import { useStore } from '../use-store.ts'
import { useRun, useSurroundings } from '../surroundings.ts'

/** What a single switch may be offered: whatever lies in front. */
const AREAS = ['.wipe', '.call-area']
const MARK = 'offered'

/** Offers a single switch one button after the other, until it takes one or nobody answers. */
export function Scanner() {
  const { scan, panels } = useRun()
  const { app } = useSurroundings()
  const isOn = useStore(scan.$on)
  const panel = useStore(panels.$panel)
  const stepMs = app.$settings.get().oneSwitchMs ?? 0
  useEffect(() => {
    if (!isOn) return
    let offered: HTMLElement | null = null
    let count = 0
    function offerNext(): void {
      const buttons = buttonsInFront()
      // What was asked for is still on its way.
      if (buttons.length === 0) return mark(null)
      const last = offered === null ? -1 : buttons.indexOf(offered)
      if (count >= SCAN_ROUNDS * buttons.length) {
        panels.close()
        return scan.stop()
      }
      count++
      mark(buttons[(last + 1) % buttons.length] ?? null)
    }
    function mark(next: HTMLElement | null): void {
      offered?.classList.remove(MARK)
      offered = next
      offered?.classList.add(MARK)
      offered?.scrollIntoView({ block: 'nearest' })
    }
    const stopHearing = scan.onTake(() => {
      const taken = offered
      mark(null)
      count = 0
      const { kind } = panels.$panel.get()
      taken?.click()
      // Whoever types a number goes on; everything else is done with one choice.
      if (kind !== 'number' && panels.$panel.get().kind === 'none') scan.stop()
    })
    offerNext()
    const timer = setInterval(offerNext, stepMs)
    return () => {
      clearInterval(timer)
      stopHearing()
      mark(null)
    }
  }, [isOn, panel.kind, scan, panels, stepMs])
  return null
}

/** What answers the call comes first, what takes back comes last. */
function buttonsInFront(): readonly HTMLElement[] {
  const area = AREAS.map((name) => document.querySelector(name)).find((found) => found !== null)
  const buttons = [...(area?.querySelectorAll<HTMLElement>('button:not(:disabled)') ?? [])]
  const answers = buttons.filter((button) => button.closest('.actions') !== null)
  return [...answers, ...buttons.filter((button) => !answers.includes(button))]
}
