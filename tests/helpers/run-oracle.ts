/**
 * Judges a log of events straight from the procedure, without the program's own lanes, phases or state: what must hold
 * of every run, whatever was commanded. Returns what is wrong, in words.
 */
import type { Procedure, Step } from '../../src/core/procedure/procedure.ts'
import type { RunEvent } from '../../src/core/run/event.ts'

interface LaneWatch {
  steps: { step: Step; machineStepsBefore: number }[]
  next: number
  due: number
  /** When its wait began, by which device's time. */
  since: number
  by: string
  bySeq: number
  waited: boolean
  /** Entries were lost, and nobody has put down yet that they looked here. */
  unseen: boolean
  cautioned: boolean
  holding: string[]
}

export function wrongIn(procedure: Procedure, events: readonly RunEvent[]): string[] {
  const cancelled = new Set(events.flatMap((event) => (event.type === 'taken-back' ? [event.cancels] : [])))
  const catchUps = events.filter((event) => event.type === 'clock-caught-up')
  /** When `event` may end the wait of a lane: later, where the device that began it lagged; not for its own clock. */
  const dueFor = (lane: LaneWatch, event: RunEvent): number => {
    const found = catchUps.find(
      ({ device, since, at, seq }) =>
        device === lane.by && since <= lane.since && (at > lane.since || (at === lane.since && seq > lane.bySeq))
    )
    if (!found) return lane.due
    const isInIt = event.device === lane.by && event.seq < found.seq
    return isInIt ? lane.due : lane.due + found.byMs
  }
  const lanes = new Map<string, LaneWatch>()
  const watch = (id: string): LaneWatch => {
    const lane = lanes.get(id) ?? {
      steps: [],
      next: 0,
      due: 0,
      since: 0,
      by: '',
      bySeq: 0,
      waited: false,
      unseen: false,
      cautioned: false,
      holding: []
    }
    lanes.set(id, lane)
    return lane
  }
  let machineSteps = 0
  for (const stage of procedure.stages) {
    for (const step of stage.steps) {
      const ids = step.on.kind === 'sides' ? step.on.sides : [step.on.kind]
      for (const id of ids) watch(id).steps.push({ step, machineStepsBefore: machineSteps })
      if (step.on.kind === 'machine') machineSteps += 1
    }
  }
  const wrong: string[] = []
  for (const event of events) {
    if (event.type === 'caution-acknowledged' && !cancelled.has(event.id)) watch(event.lane).cautioned = true
    // What follows is done later or by somebody else, who has not heard them.
    if (event.type === 'taken-back' || event.type === 'handed-over')
      for (const lane of lanes.values()) lane.cautioned = false
    if (event.type === 'entries-lost') {
      for (const lane of lanes.values()) {
        const behind = lane.steps.slice(0, lane.next).map(({ step }) => (step.wait?.minSeconds ?? 0) * 1000)
        lane.due = Math.max(dueFor(lane, event), event.at + Math.max(0, ...behind))
        lane.since = event.at
        lane.by = event.device
        lane.bySeq = event.seq
        lane.cautioned = false
        lane.unseen = true
      }
    }
    if (event.type === 'corrected' && !cancelled.has(event.id)) watch(event.lane).unseen = false
    if (event.type === 'corrected' && !cancelled.has(event.id) && event.redo !== null) {
      const lane = watch(event.lane)
      lane.next = lane.steps.findIndex(({ step }) => step.id === event.redo)
      lane.due = 0
    }
    if ((event.type !== 'step-done' && event.type !== 'check-answered') || cancelled.has(event.id)) continue
    const lane = watch(event.lane)
    const place = lane.steps[lane.next]
    const say = (what: string) => wrong.push(`${event.id} ${event.lane}/${event.step} at ${event.at}: ${what}`)
    if (!place || place.step.id !== event.step) {
      say(`expected ${place?.step.id ?? 'nothing'}`)
      continue
    }
    const { step } = place
    if (lane.unseen) say('nobody had looked at it after entries were lost')
    const due = dueFor(lane, event)
    if (event.at < due) say(`a wait was cut short by ${due - event.at} ms`)
    if (step.cautions.length > 0 && !lane.cautioned) say('its caution was not acknowledged')
    if (event.type === 'step-done' && step.check) say('its check was passed over')
    if (event.type === 'step-done' && step.confirm && event.confirmation === 'everyday')
      say('an everyday word confirmed it')
    const machine = lanes.get('machine')
    if (event.lane === 'machine') {
      for (const [id, other] of lanes) {
        if (id === 'machine') continue
        const following = other.steps[other.next]
        if (following && following.machineStepsBefore <= place.machineStepsBefore) say(`lane ${id} had not arrived`)
        if (event.at < dueFor(other, event)) say(`lane ${id} was still waiting`)
      }
    } else if (
      machine &&
      (machine.next < place.machineStepsBefore ||
        (machine.next === place.machineStepsBefore && event.at < dueFor(machine, event)))
    ) {
      say('the whole-machine step before it was not over')
    }
    for (const tool of step.takes) {
      const held = [...lanes.values()].flatMap((other) => other.holding).filter((name) => name === tool).length
      if (held >= (procedure.tools.find(({ id }) => id === tool)?.count ?? 0)) say(`took ${tool}, which is in use`)
    }
    const passes = event.type === 'step-done' || (event.good && (!step.repeat || event.round >= step.repeat.atLeast))
    if (passes) {
      lane.next += 1
      lane.due = step.wait ? event.at + step.wait.minSeconds * 1000 : 0
      lane.since = event.at
      lane.by = event.device
      lane.bySeq = event.seq
    } else if (event.type === 'check-answered' && step.repeat && (event.good || event.round < step.repeat.atMost)) {
      lane.next = lane.steps.findIndex((other) => other.step.id === step.repeat?.from)
      lane.due = 0
    }
    // A bad answer without a repeat leaves the step undone, and its tools where they were.
    const ended =
      passes ||
      (event.type === 'check-answered' && step.repeat !== null && (event.good || event.round < step.repeat.atMost))
    if (ended) lane.holding = [...lane.holding, ...step.takes].filter((tool) => !step.frees.includes(tool))
    lane.cautioned = false
  }
  return wrong
}
