import { promisesRun, type fakeClock } from '../helpers/fake-clock.ts'

export type FakeClock = ReturnType<typeof fakeClock>

/** Waits for work that waits for simulated time; work of a device that lost its power never ends. */
export async function settled(work: Promise<void>, clock: FakeClock): Promise<void> {
  const ended: string[] = []
  void work.finally(() => ended.push('ended'))
  for (let turn = 0; turn < 40 && ended.length === 0; turn += 1) {
    if (turn < 20) await promisesRun()
    else await clock.pass(1000)
  }
}
