/** Runs inside the page before its scripts and notes when things were painted, ms on the page's performance clock. */
export interface Marks {
  /** The first procedure could be touched. */
  usable: number | null
  /** The full-screen alarm came into the document; it may have been hidden. */
  alarm: number | null
  /** From each touch to the changed call being painted, ms. */
  readonly touches: number[]
  /** From each touch to the first frame after its handlers (Event Timing, rounded to 8 ms by the browser). */
  readonly nextPaints: number[]
}

declare global {
  // Only inside the page.
  var sidecallMarks: Marks
}

export function installMarks(): void {
  const marks: Marks = { usable: null, alarm: null, touches: [], nextPaints: [] }
  Object.defineProperty(window, 'sidecallMarks', { value: marks })

  /** A task posted from within a frame runs once that frame's style, layout and paint are done. */
  const oncePainted = (tell: (at: number) => void) =>
    requestAnimationFrame(() => {
      const { port1, port2 } = new MessageChannel()
      port1.addEventListener('message', () => tell(performance.now()))
      port1.start()
      port2.postMessage(null)
    })
  const shown = () => {
    const call = document.querySelector<HTMLElement>('.call-area[data-call]')
    return `${call?.dataset['call']} ${call?.querySelector('.call-text')?.textContent}`
  }

  let touch: { readonly at: number; readonly before: string } | null = null
  // The event's own time: what the page was doing before it could look at the touch counts too.
  addEventListener('pointerup', (event) => (touch = { at: event.timeStamp, before: shown() }), { capture: true })
  new MutationObserver(() => {
    if (marks.usable === null && document.querySelector('.card')) oncePainted((at) => (marks.usable ??= at))
    const alarm = document.querySelector('.alarm')
    if (!alarm) marks.alarm = null
    else marks.alarm ??= performance.now()
    if (!touch || shown() === touch.before) return
    const { at: touchedAt } = touch
    touch = null
    oncePainted((at) => marks.touches.push(at - touchedAt))
  }).observe(document, { subtree: true, childList: true, characterData: true, attributes: true })
  new PerformanceObserver((list) => {
    for (const entry of list.getEntries()) if (entry.name === 'click') marks.nextPaints.push(entry.duration)
  }).observe({ type: 'event', durationThreshold: 16 } as PerformanceObserverInit)
}
