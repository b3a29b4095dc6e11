import { beginText } from '../../core/procedure/edit/begin-text.ts'
import { useDesk } from './workshop-context.ts'

/** Words for a new part, in the languages of the procedure. */
export type Begin = (key: Parameters<typeof beginText>[0]) => ReturnType<typeof beginText>

export function useBegin(): Begin {
  const { languages } = useDesk()
  return (key) => beginText(key, languages)
}
