/** The one workshop of this page, loaded when somebody first asks for it. */
import { once } from './once.ts'
import type { Workshop, WorkshopParts } from './workshop/workshop.ts'

export function workshopLater(parts: Omit<WorkshopParts, 'link' | 'startBench'>): () => Promise<Workshop> {
  return once(async () => {
    const [{ openWorkshop }, devices] = await Promise.all([import('./workshop/workshop.ts'), parts.ports.workshop()])
    return openWorkshop({ ...parts, ...devices })
  })
}
