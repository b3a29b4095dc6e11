/**
 * One recogniser object of the browser (Web Speech API, https://webaudio.github.io/web-speech-api/), narrowed to what is
 * used here, so that a scripted one can stand in for it.
 */
export interface Recogniser {
  lang: string
  continuous: boolean
  interimResults: boolean
  maxAlternatives: number
  start(): void
  abort(): void
  addEventListener(type: string, listener: (event: Event) => void): void
}

export interface RecogniserAlternative {
  readonly transcript: string
  readonly confidence: number
}

export interface RecogniserResult {
  readonly isFinal: boolean
  readonly length: number
  /** Not of the standard: our own recogniser knows when it had better be asked about. */
  readonly unsure?: boolean
  readonly [index: number]: RecogniserAlternative
}

export interface RecogniserResultEvent extends Event {
  readonly resultIndex: number
  readonly results: { readonly length: number; readonly [index: number]: RecogniserResult }
}

export interface RecogniserErrorEvent extends Event {
  readonly error: string
}

/**
 * `press-to-talk` is for Chrome on Android: it ignores `continuous`, ends after each utterance and beeps at every start
 * (crbug.com/41297427), so starting again by itself would beep all morning.
 */
export type ListeningManner = 'keeps-listening' | 'press-to-talk'

interface Browser {
  readonly SpeechRecognition?: new () => Recogniser
  readonly webkitSpeechRecognition?: new () => Recogniser
}

/** Null when the browser has no recogniser at all. Having one does not mean that it works. */
export function recogniserOf(browser: object): (() => Recogniser) | null {
  const { SpeechRecognition, webkitSpeechRecognition } = browser as Browser
  const Found = SpeechRecognition ?? webkitSpeechRecognition
  return Found ? () => new Found() : null
}

export function listeningManner(userAgent: string): ListeningManner {
  return /\bAndroid\b/.test(userAgent) ? 'press-to-talk' : 'keeps-listening'
}
