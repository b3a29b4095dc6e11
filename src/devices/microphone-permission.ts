import { toldState, type ToldState } from './told-state.ts'

/** `unknown` where the browser does not tell (Permissions API missing or without a microphone entry). */
export type MicrophonePermission = 'granted' | 'denied' | 'prompt' | 'unknown'
export type PermissionWatch = Pick<ToldState<MicrophonePermission>, 'now' | 'onChange'>

export interface PermissionAsker {
  query(descriptor: {
    readonly name: 'microphone'
  }): Promise<EventTarget & { readonly state: 'granted' | 'denied' | 'prompt' }>
}

/** Only looks; asking for the permission is left to the recogniser's own start. */
export function microphonePermission(asker: PermissionAsker | null): PermissionWatch {
  const state = toldState<MicrophonePermission>('unknown')
  const look = async () => {
    if (!asker) return
    const status = await asker.query({ name: 'microphone' })
    state.set(status.state)
    status.addEventListener('change', () => state.set(status.state))
  }
  look().catch(() => {
    // Firefox and older Safari reject the name; then it stays unknown.
  })
  return { now: state.now, onChange: state.onChange }
}
