import { shopDay } from '../../app/shop-time.ts'
import type { Point } from '../../core/record/trends.ts'
import { useSurroundings } from '../surroundings.ts'
import { useLanguage } from '../texts.ts'
import { useRecordsWords } from './use-records-words.ts'

const [WIDTH, HEIGHT, LEFT, BOTTOM, TOP] = [600, 180, 56, 26, 12]

/** Points over time. What is out of limits is a cross, not only another colour; the words below say the same. */
export function Plot({ title, points }: { readonly title: string; readonly points: readonly Point[] }) {
  const texts = useRecordsWords()
  const { zone } = useSurroundings()
  const language = useLanguage()
  const [first, last] = [points[0], points.at(-1)]
  if (!first || !last) return null
  const values = points.map(({ value }) => value)
  const [least, most] = [Math.min(0, ...values), Math.max(1, ...values)]
  const span = Math.max(1, last.at - first.at)
  const x = (at: number) => LEFT + ((at - first.at) / span) * (WIDTH - LEFT - 12)
  const y = (value: number) => HEIGHT - BOTTOM - ((value - least) / (most - least)) * (HEIGHT - BOTTOM - TOP)
  const day = (at: number) => shopDay(at, zone, language)
  return (
    <figure class="plot">
      <figcaption>{title}</figcaption>
      <svg viewBox={`0 0 ${WIDTH} ${HEIGHT}`} role="img" aria-label={title}>
        <line x1={LEFT} y1={y(least)} x2={WIDTH - 8} y2={y(least)} class="axis" />
        <line x1={LEFT} y1={TOP} x2={LEFT} y2={y(least)} class="axis" />
        <text x={LEFT - 6} y={y(most) + 5} text-anchor="end">
          {short(most)}
        </text>
        <text x={LEFT - 6} y={y(least) + 5} text-anchor="end">
          {short(least)}
        </text>
        <text x={LEFT} y={HEIGHT - 6}>
          {day(first.at)}
        </text>
        <text x={WIDTH - 8} y={HEIGHT - 6} text-anchor="end">
          {day(last.at)}
        </text>
        {points.map(({ at, value, bad }, index) =>
          bad ? (
            <path key={index} d={`M${x(at) - 5} ${y(value) - 5}l10 10m0 -10l-10 10`} class="mark bad" />
          ) : (
            <circle key={index} cx={x(at)} cy={y(value)} r="4" class="mark" />
          )
        )}
      </svg>
      <p>
        {texts.trends.told(title, day(first.at), day(last.at), short(Math.min(...values)), short(Math.max(...values)))}
      </p>
    </figure>
  )
}

function short(value: number): string {
  return String(Math.round(value * 10) / 10)
}
