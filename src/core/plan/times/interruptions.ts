/**
 * Time that goes to customers, telephones and whatever else comes between: no part of any step, but part of how long a
 * run takes. Interruptions come at any moment of hands-on work alike, so what they take of it adds up like a compound
 * Poisson process (Campbell's theorem; Kingman, Poisson Processes, 1993, from memory).
 */

/** Sums over the seconds lost in each interruption, per second of hands-on work: of the first three powers. */
export interface Interruptions {
  readonly lost: number
  readonly squared: number
  readonly cubed: number
}

export const NO_INTERRUPTIONS: Interruptions = { lost: 0, squared: 0, cubed: 0 }

/** Further above the usual than that, in standard deviations, something came between. */
const SURELY = 3
/** Whoever is away for longer has stopped working, s; a guess. */
const MOST_LOST = 600
/** Before anything is known none are expected; that weighs as much as so much hands-on work, s. A guess. */
const PRIOR_WORK = 1800

/** `rest`: the logarithm of a time, less that of what it was expected to be; `variance` of such rests without outliers. */
export function interruptionsIn(
  times: readonly { readonly seconds: number; readonly rest: number }[],
  variance: number
): Interruptions {
  const beyond = SURELY * Math.sqrt(variance)
  const work = times.reduce((sum, { seconds, rest }) => sum + seconds / Math.exp(rest), PRIOR_WORK)
  const losses = times
    .filter(({ rest }) => rest > beyond)
    .map(({ seconds, rest }) => Math.min(MOST_LOST, seconds - seconds / Math.exp(rest)))
  const perSecond = (power: number) => losses.reduce((sum, lost) => sum + lost ** power, 0) / work
  return { lost: perSecond(1), squared: perSecond(2), cubed: perSecond(3) }
}
