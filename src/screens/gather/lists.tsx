import type { ComponentChildren } from 'preact'
import type { Part, Procedure } from '../../core/procedure/procedure.ts'
import { textIn } from '../../core/talk/call-words.ts'
import { useSurroundings } from '../surroundings.ts'
import { useGatherWords } from './use-gather-words.ts'

interface ListProps {
  readonly procedure: Procedure
}

export function SupplyList({ procedure }: ListProps) {
  const gather = useGatherWords()
  const { app } = useSurroundings()
  return (
    <List title={gather.supplies}>
      {procedure.supplies.map(({ id, name, amount, per }) => (
        <li key={id}>
          <b>{textIn(name, app.manner())}</b>
          <span>
            {textIn(amount, app.manner())} {perWords(per, gather)}
          </span>
        </li>
      ))}
    </List>
  )
}

export function SolutionList({ procedure }: ListProps) {
  const gather = useGatherWords()
  const { app } = useSurroundings()
  return (
    <List title={gather.solutions}>
      {procedure.solutions.map(({ id, name, amount, per, directions }) => (
        <li key={id}>
          <b>{textIn(name, app.manner())}</b>
          <span>
            {textIn(amount, app.manner())} {perWords(per, gather)}
          </span>
          <span class="directions">{textIn(directions, app.manner())}</span>
        </li>
      ))}
    </List>
  )
}

const CARES = ['grease', 'dry', 'clean'] as const

/** By care, because greasing the wrong part is a fault of its own. */
export function PartList({ procedure }: ListProps) {
  const gather = useGatherWords()
  return (
    <List title={gather.parts}>
      {CARES.map((care) => {
        const parts = procedure.parts.filter((part) => part.care === care)
        return parts.length === 0 ? null : <CareGroup key={care} care={care} parts={parts} />
      })}
    </List>
  )
}

function CareGroup({ care, parts }: { readonly care: Part['care']; readonly parts: readonly Part[] }) {
  const gather = useGatherWords()
  const { app } = useSurroundings()
  return (
    <li class={`care ${care}`}>
      <b class="care-name">{gather.care(care)}</b>
      <ul>
        {parts.map(({ id, name, count, per }) => (
          <li key={id}>
            {gather.pieces(count)} {textIn(name, app.manner())} <small>{perWords(per, gather)}</small>
          </li>
        ))}
      </ul>
    </li>
  )
}

export function ToolList({ procedure }: ListProps) {
  const gather = useGatherWords()
  const { app } = useSurroundings()
  return (
    <List title={gather.tools}>
      {procedure.tools.map(({ id, name, count }) => (
        <li key={id}>
          <b>{textIn(name, app.manner())}</b>
          <span>{gather.pieces(count)}</span>
        </li>
      ))}
    </List>
  )
}

function List({ title, children }: { readonly title: string; readonly children: ComponentChildren }) {
  const gather = useGatherWords()
  const isEmpty = Array.isArray(children) && children.every((child) => child === null)
  return (
    <section class="list">
      <h2>{title}</h2>
      {isEmpty ? <p>{gather.none}</p> : <ul>{children}</ul>}
    </section>
  )
}

function perWords(per: 'side' | 'machine', gather: ReturnType<typeof useGatherWords>): string {
  return per === 'side' ? gather.perSide : ''
}
