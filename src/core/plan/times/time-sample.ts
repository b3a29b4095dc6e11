/** How long the hands took for one step, once. */
export interface TimeSample {
  readonly step: string
  readonly machine: string
  /** Name of the person whose hands they were. */
  readonly operator: string
  /** Id of the run: what its steps share is the day's pace. */
  readonly run: string
  readonly seconds: number
  /** When it ended, trusted epoch ms. */
  readonly at: number
}
