/** The one workshop of this page, loaded when somebody first asks for it. */
import type { Workshop, WorkshopParts } from './workshop/workshop.ts'

export function workshopLater(parts: Omit<WorkshopParts, 'link' | 'startBench'>): () => Promise<Workshop> {
  let workshop: Promise<Workshop> | null = null
  const open = async () => {
    const [{ openWorkshop }, devices] = await Promise.all([import('./workshop/workshop.ts'), parts.ports.workshop()])
    return openWorkshop({ ...parts, ...devices })
  }
  return () => (workshop ??= open())
}
