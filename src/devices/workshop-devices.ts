/** What the workshop needs of server and device, loaded together. */
import type { DraftBench, WorkshopLink } from '../ports/workshop.ts'
import { startBenchWorker, workerBench } from './draft-bench.ts'
import { workshopOverHttp } from './workshop-http.ts'

export function workshopDevices(): { readonly link: WorkshopLink; readonly startBench: () => DraftBench } {
  return { link: workshopOverHttp(), startBench: () => workerBench(startBenchWorker) }
}
