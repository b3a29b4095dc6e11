import { useEffect, useState } from 'preact/hooks'
import type { PeopleDesk } from '../../app/people-desk.ts'
import { useSurroundings } from '../surroundings.ts'

/**
 * The desk for people, once it is there and has asked the server who this is, or who may be at a machine; null before,
 * and where it cannot be loaded.
 */
export function usePeople(asking: 'look' | 'lookNames' = 'look'): PeopleDesk | null {
  const { app } = useSurroundings()
  const [desk, setDesk] = useState<PeopleDesk | null>(null)
  useEffect(() => {
    let isHere = true
    const find = async () => {
      const found = await app.people()
      await found[asking]()
      if (isHere) setDesk(found)
    }
    void find().catch(() => undefined)
    return () => {
      isHere = false
    }
  }, [app, asking])
  return desk
}
