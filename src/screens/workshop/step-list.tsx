/** The stages and their steps in order; one of them is chosen. By keys, by touch and by dragging. */
import { useRef, useState } from 'preact/hooks'
import { listAt, shownWords, valueAt, withWords, wordsAt } from '../../core/procedure/edit/draft-values.ts'
import { newId } from '../../core/procedure/edit/new-id.ts'
import { Press } from '../parts/press.tsx'
import { AddByName } from './add-by-name.tsx'
import { optionName } from './option-name.ts'
import { useMoving, type Spot } from './use-moving.ts'
import { useWorkshopWords } from './use-workshop-words.ts'
import { isBelow, stepPath, useDesk, type Chosen } from './workshop-context.ts'

export function StepList({ onOpen }: { readonly onOpen: () => void }) {
  const { editor, value, languages, reading, chosen, choose } = useDesk()
  const words = useWorkshopWords()
  const list = useRef<HTMLOListElement>(null)
  const moving = useMoving()
  const [drop, setDrop] = useState<Spot | null>(null)
  const first = languages[0] ?? 'en'
  const stages = listAt(value, ['stages'])
  const spots: readonly Chosen[] = stages.flatMap((_, stage) => [
    { stage, step: null },
    ...listAt(value, ['stages', stage, 'steps']).map((__, step) => ({ stage, step }))
  ])

  function focusOn(spot: Chosen): void {
    choose(spot)
    requestAnimationFrame(() =>
      list.current?.querySelector<HTMLElement>(`[data-spot="${spot.stage}-${spot.step ?? ''}"]`)?.focus()
    )
  }

  function onKey(event: KeyboardEvent): void {
    const by = event.key === 'ArrowDown' ? 1 : event.key === 'ArrowUp' ? -1 : 0
    if (by === 0) return
    event.preventDefault()
    if (event.altKey) {
      const to = moving.besides(chosen, by)
      if (to) void moving.move(chosen, to).then((spot) => (spot ? focusOn(spot) : undefined))
      return
    }
    const next = spots[spots.findIndex((spot) => spot.stage === chosen.stage && spot.step === chosen.step) + by]
    if (next) focusOn(next)
  }

  const ids = spots.flatMap((spot) => (spot.step === null ? [] : [wordsAt(value, [...stepPath(spot), 'step'])]))
  const asWords = (typed: string) => withWords(undefined, reading, first, typed)
  let number = 0
  return (
    <div class="draft-steps">
      <p class="draft-hint">{words.listHint}</p>
      <div class="draft-row">
        {([-1, 1] as const).map((by) => {
          const to = moving.besides(chosen, by)
          return (
            <Press
              key={by}
              disabled={to === null}
              onPress={() => {
                if (to) void moving.move(chosen, to).then((spot) => (spot ? choose(spot) : undefined))
              }}
            >
              {by === -1 ? words.up : words.down}
            </Press>
          )
        })}
      </div>
      <ol ref={list} onKeyDown={onKey}>
        {stages.map((_, stage) => (
          <li key={stage} class="draft-stage">
            <SpotButton spot={{ stage, step: null }} onOpen={onOpen}>
              {words.stage(stage + 1)}: {shownWords(value, ['stages', stage, 'stage'], reading, first)}
            </SpotButton>
            <ol>
              {listAt(value, ['stages', stage, 'steps']).map((__, step) => {
                number += 1
                const spot = { stage, step }
                const path = stepPath(spot)
                const isDrop = drop?.stage === stage && drop.step === step
                return (
                  <li
                    key={wordsAt(value, [...path, 'step']) || step}
                    class={`draft-step ${isDrop ? 'drop' : ''}`}
                    data-row={`${stage}-${step}`}
                  >
                    <span
                      class="draft-grip"
                      role="presentation"
                      title={words.drag}
                      onPointerDown={(event) => moving.drag(event, spot, setDrop, focusOn)}
                    />
                    <SpotButton spot={spot} onOpen={onOpen}>
                      <b>{number}</b> {shownWords(value, [...path, 'say'], reading, first)}
                      <StepMarks spot={spot} />
                    </SpotButton>
                  </li>
                )
              })}
            </ol>
          </li>
        ))}
      </ol>
      {stages.length > 0 && (
        <AddByName
          label={words.addStep}
          onAdd={(say) => {
            const at = chosen.step === null ? 0 : chosen.step + 1
            const step = { step: newId(say, 'step', ids), say: asWords(say), hands: '30 s' }
            const made = editor.edit({ kind: 'insert', list: ['stages', chosen.stage, 'steps'], at, value: step })
            return made.then((done) => {
              if (done) choose({ stage: chosen.stage, step: at })
              return done
            })
          }}
        />
      )}
      <AddByName
        label={words.addStage}
        onAdd={(stage) =>
          editor.edit({
            kind: 'insert',
            list: ['stages'],
            at: Math.min(chosen.stage + 1, stages.length),
            value: {
              stage: asWords(stage),
              steps: [{ step: newId(stage, 'step', ids), say: asWords(stage), hands: '30 s' }]
            }
          })
        }
      />
    </div>
  )
}

interface SpotButtonProps {
  readonly spot: Chosen
  readonly onOpen: () => void
  readonly children: preact.ComponentChildren
}

/** One of them is a stop of the Tab key; arrows reach the others. */
function SpotButton({ spot, onOpen, children }: SpotButtonProps) {
  const { chosen, choose, findings } = useDesk()
  const isChosen = chosen.stage === spot.stage && chosen.step === spot.step
  const below = findings.filter(({ path }) => isBelow(path, stepPath(spot)))
  const worst = below.some(({ weight }) => weight === 'error') ? 'error' : 'warning'
  return (
    <button
      type="button"
      class={`draft-spot ${isChosen ? 'chosen' : ''}`}
      aria-current={isChosen}
      tabIndex={isChosen ? 0 : -1}
      data-spot={`${spot.stage}-${spot.step ?? ''}`}
      onClick={() => {
        choose(spot)
        onOpen()
      }}
    >
      <span>{children}</span>
      {spot.step !== null && below.length > 0 && (
        <span class={`draft-count ${worst}`}>
          {worst === 'error' ? '✕' : '!'} {below.length}
        </span>
      )}
    </button>
  )
}

/** Where it happens, and what makes it more than a headline. */
function StepMarks({ spot }: { readonly spot: Chosen }) {
  const { value, languages, reading } = useDesk()
  const words = useWorkshopWords()
  const first = languages[0] ?? 'en'
  const path = stepPath(spot)
  const on = wordsAt(value, [...path, 'on']) || 'each side'
  const sides = listAt(value, ['sides'])
  const side = sides.findIndex((_, at) => wordsAt(value, ['sides', at, 'id']) === on)
  const place = side < 0 ? (words.places[on] ?? on) : shownWords(value, ['sides', side, 'name'], reading, first)
  const wait = wordsAt(value, [...path, 'wait', 'at least'])
  const most = wordsAt(value, [...path, 'wait', 'at most'])
  const check = (['ask', 'read', 'count'] as const).find((key) => valueAt(value, [...path, key]) !== undefined)
  const cautions = listAt(value, [...path, 'cautions']).map((_, at) => {
    const signal = wordsAt(value, [...path, 'cautions', at, 'signal'])
    return optionName(words.options, signal)
  })
  const marks = [
    ...(on === 'each side' ? [] : [place]),
    ...cautions,
    ...(wait === '' ? [] : [words.waits(most === '' ? wait : `${wait} – ${most}`)]),
    ...(check === undefined ? [] : [words.options[check]])
  ]
  return marks.length === 0 ? null : <small class="draft-marks">{marks.join(' · ')}</small>
}
