/** Where two chemicals that make a poisonous gas follow each other without a full rinse between. */

/**
 * What matters of a product here. A delimer, vinegar or an iodophor is an acid; a chlorinated cleaner is a
 * hypochlorite; food left on a part is none of them.
 */
export const CHEMICAL_FAMILIES = ['hypochlorite', 'acid', 'ammonia', 'other'] as const
export type ChemicalFamily = (typeof CHEMICAL_FAMILIES)[number]

/** `at` is whatever the caller knows the place by, such as the id of a step. */
export type ChemicalEvent<At> =
  | { readonly kind: 'use'; readonly families: readonly ChemicalFamily[]; readonly at: At }
  /** Potable water over everything the chemical touched, and all of it drained. */
  | { readonly kind: 'full-rinse' }
  | { readonly kind: 'nothing' }

/** After the event at index `from`, the one at `to` may come once more. */
export interface GoingBack {
  readonly from: number
  readonly to: number
}

/** Washington State Department of Health, as restated by secondary pages. */
export type Gas = 'chlorine' | 'chloramine'

export interface ChemicalClash<At> {
  readonly gas: Gas
  readonly first: At
  readonly second: At
}

type Use<At> = Extract<ChemicalEvent<At>, { kind: 'use' }>

/**
 * The events of one vessel, side or batch, in their order; a bucket has an order of its own. Each use is held against
 * all that may stand before it since the last full rinse, so a detergent between the two does not help.
 */
export function chemicalClashes<At>(
  events: readonly ChemicalEvent<At>[],
  goingBack: readonly GoingBack[] = []
): readonly ChemicalClash<At>[] {
  const before = presentBefore(events, goingBack)
  return events.flatMap((event, index) => {
    if (event.kind !== 'use') return []
    // Two products in one step meet each other, too.
    const met = new Set([...(before[index] ?? []), event])
    return [...met].flatMap((first) => clash(first, event) ?? [])
  })
}

/** What may be present as each event begins: the same at every turn once going back adds nothing new. */
function presentBefore<At>(
  events: readonly ChemicalEvent<At>[],
  goingBack: readonly GoingBack[]
): readonly ReadonlySet<Use<At>>[] {
  const before: Set<Use<At>>[] = events.map(() => new Set())
  for (let grew = true; grew;) {
    grew = false
    events.forEach((event, index) => {
      const after =
        event.kind === 'full-rinse' ? [] : [...(before[index] ?? []), ...(event.kind === 'use' ? [event] : [])]
      const following = [index + 1, ...goingBack.filter(({ from }) => from === index).map(({ to }) => to)]
      for (const next of following) {
        const present = before[next]
        for (const use of after) {
          if (present === undefined || present.has(use)) continue
          present.add(use)
          grew = true
        }
      }
    })
  }
  return before
}

function clash<At>(first: Use<At>, second: Use<At>): ChemicalClash<At> | null {
  for (const one of first.families) {
    for (const other of second.families) {
      const gas = gasOf(one, other)
      if (gas !== null) return { gas, first: first.at, second: second.at }
    }
  }
  return null
}

/** What two families give off together, whichever comes first. */
export function gasOf(one: ChemicalFamily, other: ChemicalFamily): Gas | null {
  const pair = [one, other]
  if (!pair.includes('hypochlorite')) return null
  if (pair.includes('acid')) return 'chlorine'
  return pair.includes('ammonia') ? 'chloramine' : null
}
