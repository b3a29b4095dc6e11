/** Where two chemicals that make a poisonous gas follow each other without a full rinse between. */

/**
 * What matters of a product here. A delimer, vinegar or an iodophor is an acid; a chlorinated cleaner is a
 * hypochlorite; food left on a part is none of them.
 */
export type ChemicalFamily = 'hypochlorite' | 'acid' | 'ammonia' | 'other'

/** `at` is whatever the caller knows the place by, such as the id of a step. */
export type ChemicalEvent<At> =
  | { readonly kind: 'use'; readonly family: ChemicalFamily; readonly at: At }
  /** Potable water over everything the chemical touched, and all of it drained. */
  | { readonly kind: 'full-rinse' }

/** Washington State Department of Health, as restated by secondary pages. */
export type Gas = 'chlorine' | 'chloramine'

export interface ChemicalClash<At> {
  readonly gas: Gas
  readonly first: At
  readonly second: At
}

/**
 * The events of one vessel, side or batch, in their order; a bucket has an order of its own. Each use is held against all
 * before it since the last full rinse, so a detergent between the two does not help.
 */
export function chemicalClashes<At>(events: readonly ChemicalEvent<At>[]): readonly ChemicalClash<At>[] {
  const clashes: ChemicalClash<At>[] = []
  let present: Extract<ChemicalEvent<At>, { kind: 'use' }>[] = []
  for (const event of events) {
    if (event.kind === 'full-rinse') {
      present = []
      continue
    }
    for (const earlier of present) {
      const gas = gasOf(earlier.family, event.family)
      if (gas !== null) clashes.push({ gas, first: earlier.at, second: event.at })
    }
    present.push(event)
  }
  return clashes
}

/** What two families give off together, whichever comes first. */
export function gasOf(one: ChemicalFamily, other: ChemicalFamily): Gas | null {
  const pair = [one, other]
  if (!pair.includes('hypochlorite')) return null
  if (pair.includes('acid')) return 'chlorine'
  return pair.includes('ammonia') ? 'chloramine' : null
}
