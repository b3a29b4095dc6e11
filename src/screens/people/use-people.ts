import { useEffect, useState } from 'preact/hooks'
import type { PeopleDesk } from '../../app/people-desk.ts'
import { useSurroundings } from '../surroundings.ts'

/** The desk for people, once it is there and has asked the server who this is; null before, and where it cannot be loaded. */
export function usePeople(): PeopleDesk | null {
  const { app } = useSurroundings()
  const [desk, setDesk] = useState<PeopleDesk | null>(null)
  useEffect(() => {
    let isHere = true
    const find = async () => {
      const found = await app.people()
      await found.look()
      if (isHere) setDesk(found)
    }
    void find().catch(() => undefined)
    return () => {
      isHere = false
    }
  }, [app])
  return desk
}
