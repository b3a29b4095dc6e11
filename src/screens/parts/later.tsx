import type { ComponentType } from 'preact'
import { useEffect, useState } from 'preact/hooks'

/**
 * A part of the page that the first call does not need: fetched on its own, by `fetchParts` at the latest, so that it is
 * there without the network when somebody asks for it.
 */
export function later<Props extends object>(load: () => Promise<ComponentType<Props>>): ComponentType<Props> {
  let loaded: ComponentType<Props> | null = null
  let loading: Promise<void> | null = null
  const fetch = () => {
    loading ??= load().then(
      (component) => {
        loaded = component
      },
      () => {
        loading = null
      }
    )
    return loading
  }
  parts.push(fetch)
  return function Later(props: Props) {
    const [, renderWith] = useState<unknown>()
    useEffect(() => {
      if (loaded) return
      let isHere = true
      void fetch().then(() => (isHere ? renderWith({}) : undefined))
      return () => {
        isHere = false
      }
    }, [])
    const Part = loaded
    return Part && <Part {...props} />
  }
}

const parts: (() => Promise<void>)[] = []

/** Fetches every part that is not there yet. */
export function fetchParts(): void {
  for (const fetch of parts) void fetch()
}
