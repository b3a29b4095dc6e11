import { useEffect, useState } from 'preact/hooks'
import type { RecordsDesk } from '../../app/records-desk.ts'
import { useSurroundings } from '../surroundings.ts'

/** The desk of the records once its code is there; null until then. */
export function useDesk(): RecordsDesk | null {
  const { app } = useSurroundings()
  const [desk, setDesk] = useState<RecordsDesk | null>(null)
  useEffect(() => {
    let isHere = true
    void app.records().then((opened) => (isHere ? setDesk(opened) : undefined))
    return () => {
      isHere = false
    }
  }, [app])
  return desk
}
