/** Time as the device has it. Trusted time is made from this in core/time. */
export interface Clock {
  /** The device's wall clock, epoch ms. May jump. */
  wall(): number
  /** Milliseconds that only ever go forward while the page lives. May stand still while the device sleeps. */
  steady(): number
  /** Calls back once after about `ms`; the returned function cancels it. Late calls are allowed, early ones are not. */
  after(ms: number, call: () => void): () => void
}
