/** What is different between two versions, to be read by somebody who works with them. */
import { useMemo } from 'preact/hooks'
import type { StageDifference } from '../../core/procedure/compare/compare-stages.ts'
import { compare, isSame, type StepDifference, type ThingDifference } from '../../core/procedure/compare/compare.ts'
import type { Procedure } from '../../core/procedure/procedure.ts'
import { textFor } from '../../core/talk/quantities.ts'
import { useSurroundings } from '../surroundings.ts'
import { valueWords, wholeText, type Telling } from './fact-words.ts'
import { optionName } from './option-name.ts'
import { useWorkshopWords } from './use-workshop-words.ts'
import type { WorkshopWords } from './words.en.ts'

export function DifferenceView({ before, after }: { readonly before: Procedure; readonly after: Procedure }) {
  const words = useWorkshopWords()
  const { app } = useSurroundings()
  const difference = useMemo(() => compare(before, after), [before, after])
  const telling: Telling = { words, procedures: [after, before], language: app.manner().language }
  const { head, languages, example, things, stages, steps } = difference
  if (isSame(difference)) return <p class="state-note">{words.difference.same}</p>
  return (
    <div class="differences">
      {head.map(({ name, before: was, after: is }) => (
        <Change
          key={name}
          name={words.fields[name === 'aboutMachine' ? 'about the machine' : name] ?? name}
          was={was && wholeText(was)}
          is={is && wholeText(is)}
        />
      ))}
      {languages && (
        <Change name={words.difference.languages} was={languages.before.join(', ')} is={languages.after.join(', ')} />
      )}
      {example !== null && (
        <Change
          name={words.fields['example'] ?? ''}
          was={words.options[example ? 'no' : 'yes'] ?? ''}
          is={words.options[example ? 'yes' : 'no'] ?? ''}
        />
      )}
      {things.map((thing) => (
        <ThingChange key={`${thing.list} ${JSON.stringify(thing.name)}`} thing={thing} telling={telling} />
      ))}
      {stages.map((stage) => (
        <StageChange key={`${stage.kind} ${JSON.stringify(stage.title)}`} difference={stage} telling={telling} />
      ))}
      <ol>
        {steps.map((step) => (
          <StepChange key={step.step.id} difference={step} telling={telling} />
        ))}
      </ol>
    </div>
  )
}

function StageChange({ difference, telling }: { readonly difference: StageDifference; readonly telling: Telling }) {
  const { words, language } = telling
  const { kind, title } = difference
  return (
    <section class={`difference ${kind}`}>
      <h2>
        {words.difference.stages[kind]}: {textFor(title, language)}
      </h2>
      {kind === 'changed' && difference.movedBehind !== undefined && (
        <Moved behind={difference.movedBehind && textFor(difference.movedBehind, language)} />
      )}
      {kind === 'changed' && difference.before && (
        <Change name={words.stageName} was={wholeText(difference.before)} is={wholeText(title)} />
      )}
    </section>
  )
}

function Moved({ behind }: { readonly behind: string | null }) {
  const { difference } = useWorkshopWords()
  return (
    <p>
      <b class="difference-kind">{difference.kinds.order}</b> {difference.moved(behind)}
    </p>
  )
}

function StepChange({ difference, telling }: { readonly difference: StepDifference; readonly telling: Telling }) {
  const { words, language } = telling
  const { kind, step, stage } = difference
  const moved = kind === 'changed' ? difference.movedBehind : undefined
  return (
    <li class={`difference ${kind}`}>
      <h2>
        {words.difference[kind]}: {textFor(step.say, language)} <small>({textFor(stage, language)})</small>
      </h2>
      {moved !== undefined && <Moved behind={moved && textFor(moved.say, language)} />}
      {kind === 'changed' && difference.stageBefore && (
        <p>
          <b class="difference-kind">{words.difference.kinds.order}</b>{' '}
          {words.difference.stageBefore(textFor(difference.stageBefore, language))}
        </p>
      )}
      {kind === 'changed' &&
        difference.facts.map(({ kind: about, name, number, before, after }) => (
          <Change
            key={`${name} ${number}`}
            kind={words.difference.kinds[about]}
            name={number === 0 ? words.facts[name] : `${words.facts[name]} ${number}`}
            was={before && valueWords(before, telling)}
            is={after && valueWords(after, telling)}
          />
        ))}
    </li>
  )
}

function ThingChange({ thing, telling }: { readonly thing: ThingDifference; readonly telling: Telling }) {
  const { words, language } = telling
  const { kind, list, name, keys } = thing
  const title = `${words.sections[list]}: ${textFor(name, language)}`
  if (kind !== 'changed') {
    return (
      <p>
        <b>{title}</b>: {kind === 'added' ? words.difference.thingAdded : words.difference.thingRemoved}
      </p>
    )
  }
  return (
    <>
      {keys.map(({ key, before, after }) => (
        <Change
          key={key}
          name={`${title}: ${words.fields[key] ?? key}`}
          was={plain(before, words.options)}
          is={plain(after, words.options)}
        />
      ))}
    </>
  )
}

interface ChangeProps {
  readonly kind?: string
  readonly name: string
  readonly was: string | null
  readonly is: string | null
}

function Change({ kind = '', name, was, is }: ChangeProps) {
  const words = useWorkshopWords()
  return (
    <div class="difference-change">
      <p>
        {kind !== '' && <b class="difference-kind">{kind}</b>} {name}
      </p>
      <p>
        <small>{words.difference.before}</small> {was === null ? <i>{words.difference.not}</i> : <del>{was}</del>}
      </p>
      <p>
        <small>{words.difference.after}</small> {is === null ? <i>{words.difference.not}</i> : <ins>{is}</ins>}
      </p>
    </div>
  )
}

function plain(value: unknown, options: WorkshopWords['options']): string | null {
  if (value === undefined || value === null) return null
  if (typeof value === 'string') return optionName(options, value)
  if (typeof value === 'number') return String(value)
  if (typeof value !== 'object') return null
  return Object.values(value).every((each) => typeof each === 'string')
    ? wholeText(value as Readonly<Record<string, string>>)
    : Object.entries(value)
        .filter(([, each]) => each !== null)
        .map(([key, each]) => `${key} ${String(each)}`)
        .join(', ')
}
