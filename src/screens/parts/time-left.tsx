import { useStore } from '../use-store.ts'
import { useRun, useSurroundings } from '../surroundings.ts'
import { agoText, leftText } from './time-text.ts'

/** Counts down to a moment of trusted time. Only this text changes with every tick. */
export function TimeLeft({ until }: { readonly until: number }) {
  const { conductor } = useRun()
  const { app } = useSurroundings()
  const left = until - useStore(conductor.$now)
  return (
    <time role="timer" aria-label={app.manner().words.duration(left)}>
      {leftText(left)}
    </time>
  )
}

/** Counts up from a moment of trusted time. */
export function TimeSince({ since }: { readonly since: number }) {
  const { conductor } = useRun()
  return <time role="timer">{agoText(useStore(conductor.$now) - since)}</time>
}
