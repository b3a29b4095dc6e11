/** Moving a step or a stage: to the place beside it, or to where a finger lets go of it. */
import { listAt } from '../../core/procedure/edit/draft-values.ts'
import { useDesk, type Chosen } from './workshop-context.ts'

/** Before this step of this stage. */
export interface Spot {
  readonly stage: number
  readonly step: number
}

export interface Moving {
  /** Where `chosen` comes to stand when it goes one up or down; null where there is nothing. */
  besides(chosen: Chosen, by: 1 | -1): Chosen | null
  /** Resolves to where it stands now; null when it could not be moved. */
  move(from: Chosen, to: Chosen): Promise<Chosen | null>
  drag(event: PointerEvent, from: Spot, over: (spot: Spot | null) => void, moved: (to: Chosen) => void): void
}

export function useMoving(): Moving {
  const { editor, value } = useDesk()
  const steps = (stage: number) => listAt(value, ['stages', stage, 'steps']).length
  const stages = listAt(value, ['stages']).length

  const moving: Moving = {
    besides({ stage, step }, by) {
      if (step === null) return stage + by < 0 || stage + by >= stages ? null : { stage: stage + by, step: null }
      if (step + by >= 0 && step + by < steps(stage)) return { stage, step: step + by }
      const other = stage + by
      return other < 0 || other >= stages ? null : { stage: other, step: by === 1 ? 0 : steps(other) }
    },
    async move(from, to) {
      const done =
        from.step === null || to.step === null
          ? await editor.edit({
              kind: 'move',
              from: { list: ['stages'], at: from.stage },
              to: { list: ['stages'], at: to.stage }
            })
          : await editor.edit({
              kind: 'move',
              from: { list: ['stages', from.stage, 'steps'], at: from.step },
              to: { list: ['stages', to.stage, 'steps'], at: to.step }
            })
      return done ? to : null
    },
    drag(event, from, over, moved) {
      if (!event.isPrimary || event.button !== 0) return
      event.preventDefault()
      const grip = event.currentTarget as HTMLElement
      grip.setPointerCapture(event.pointerId)
      let spot: Spot | null = null
      const follow = ({ clientX, clientY }: PointerEvent) => {
        spot = spotAt(clientX, clientY)
        over(spot)
      }
      const end = (kind: 'dropped' | 'called-off') => {
        grip.removeEventListener('pointermove', follow)
        grip.removeEventListener('pointerup', drop)
        grip.removeEventListener('pointercancel', callOff)
        over(null)
        if (kind === 'called-off' || spot === null) return
        // Taken out of its own list first, everything behind it moves up by one.
        const isBehind = spot.stage === from.stage && spot.step > from.step
        const to = { stage: spot.stage, step: spot.step - (isBehind ? 1 : 0) }
        if (to.stage === from.stage && to.step === from.step) return
        void moving.move(from, to).then((there) => (there ? moved(there) : undefined))
      }
      const drop = () => end('dropped')
      const callOff = () => end('called-off')
      grip.addEventListener('pointermove', follow)
      grip.addEventListener('pointerup', drop)
      grip.addEventListener('pointercancel', callOff)
    }
  }
  return moving
}

/** The upper half of a row stands for the place before it, the lower half for the one behind. */
function spotAt(x: number, y: number): Spot | null {
  const row = document.elementFromPoint(x, y)?.closest<HTMLElement>('[data-row]')
  const [stage, step] = (row?.dataset['row'] ?? '').split('-').map(Number)
  if (!row || stage === undefined || step === undefined) return null
  const { top, height } = row.getBoundingClientRect()
  return { stage, step: y > top + height / 2 ? step + 1 : step }
}
