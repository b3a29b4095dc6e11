import { useEffect, useState } from 'preact/hooks'
import type { Course } from '../../core/procedure/course.ts'
import type { WornPart } from '../../core/record/wear.ts'
import { laneName, textIn } from '../../core/talk/call-words.ts'
import { useSurroundings } from '../surroundings.ts'
import { useGatherWords } from './use-gather-words.ts'

const DAY_MS = 86_400_000

/** What has to be replaced, while there is time to fetch a new one; nothing where nothing is worn. */
export function WornParts({ course }: { readonly course: Course }) {
  const gather = useGatherWords()
  const { app } = useSurroundings()
  const [worn, setWorn] = useState<readonly WornPart[]>([])
  useEffect(() => {
    let isHere = true
    void app.wornParts(course).then((parts) => (isHere ? setWorn(parts) : undefined))
    return () => {
      isHere = false
    }
  }, [app, course])
  if (worn.length === 0) return null
  const manner = app.manner()
  return (
    <section class="list worn">
      <h2>{gather.wornTitle}</h2>
      <ul>
        {worn.map(({ part, lane, worn: state, age }) => {
          const place = manner.words.partAt(laneName(course, lane, manner), textIn(part.name, manner))
          return (
            <li key={`${lane} ${part.id}`}>
              <b>{state === 'due' ? gather.wornNow(place) : gather.wornSoon(place)}</b>
              <span>{gather.wornAge(Math.floor((app.now() - age.since) / DAY_MS), age.runs, age.isKnown)}</span>
            </li>
          )
        })}
      </ul>
      <p class="worn-say">{gather.wornSay}</p>
    </section>
  )
}
