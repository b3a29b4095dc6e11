/**
 * Stands in for the browser's recogniser and synthesizer, which a headless browser has none of. Runs inside the page
 * before its scripts: `sidecallVoice.hear('all done')` is an operator speaking, `sidecallVoice.said` what was spoken.
 */
export interface ScriptedVoice {
  readonly said: string[]
  /** True once a recogniser is listening and the words were given to it. */
  hear(words: string): boolean
  listening(): boolean
  /** Ends the recogniser's session with an error, as a lost microphone does. */
  fail(error: string): void
  /** Performance time of the first words spoken. */
  firstSpokenAt: number | null
}

export function installScriptedVoice(): void {
  class ScriptedRecogniser extends EventTarget {
    lang = ''
    continuous = false
    interimResults = false
    maxAlternatives = 1
    silence: ReturnType<typeof setTimeout> | undefined
    results: { transcript: string; confidence: number }[][] = []
    start(): void {
      if (listening) throw new DOMException('recognition has already started', 'InvalidStateError')
      begin(this)
      queueMicrotask(() => {
        this.dispatchEvent(new Event('start'))
        this.dispatchEvent(new Event('audiostart'))
      })
      this.awaitSpeech()
    }
    stop(): void {
      this.abort()
    }
    abort(): void {
      if (listening !== this) return
      listening = null
      queueMicrotask(() => this.dispatchEvent(new Event('end')))
    }
    /** Chromium ends a session in which nobody speaks for 8 s (kNoSpeechTimeoutMs). */
    awaitSpeech(): void {
      clearTimeout(this.silence)
      this.silence = setTimeout(() => {
        if (listening === this) scripted.fail('no-speech')
      }, 8000)
    }
    give(words: string): void {
      this.awaitSpeech()
      this.dispatchEvent(new Event('speechstart'))
      this.results = [...this.results, [{ transcript: words, confidence: 0.9 }]]
      const results = this.results.map((alternatives) => Object.assign([...alternatives], { isFinal: true }))
      this.dispatchEvent(Object.assign(new Event('result'), { resultIndex: results.length - 1, results }))
    }
  }
  let listening: ScriptedRecogniser | null = null
  const begin = (session: ScriptedRecogniser) => {
    listening = session
  }

  const voice: SpeechSynthesisVoice = {
    default: true,
    lang: 'en-US',
    localService: true,
    name: 'Scripted',
    voiceURI: 'scripted'
  }
  class Utterance extends EventTarget {
    voice: SpeechSynthesisVoice | null = null
    lang = ''
    rate = 1
    volume = 1
    readonly text: string
    constructor(text: string) {
      super()
      this.text = text
    }
  }
  const synthesizer = Object.assign(new EventTarget(), {
    speaking: false,
    pending: false,
    getVoices: () => [voice],
    cancel: () => undefined,
    speak(utterance: Utterance) {
      if (utterance.text !== '') {
        scripted.said.push(utterance.text)
        scripted.firstSpokenAt ??= performance.now()
      }
      queueMicrotask(() => {
        utterance.dispatchEvent(new Event('start'))
        utterance.dispatchEvent(new Event('end'))
      })
    }
  })
  const scripted: ScriptedVoice = {
    said: [],
    firstSpokenAt: null,
    hear(words) {
      if (!listening) return false
      listening.give(words)
      return true
    },
    listening: () => listening !== null,
    fail(error) {
      const session = listening
      listening = null
      session?.dispatchEvent(Object.assign(new Event('error'), { error }))
      session?.dispatchEvent(new Event('end'))
    }
  }
  Object.defineProperty(window, 'SpeechRecognition', { value: ScriptedRecogniser, configurable: true })
  Object.defineProperty(window, 'webkitSpeechRecognition', { value: ScriptedRecogniser, configurable: true })
  Object.defineProperty(window, 'speechSynthesis', { value: synthesizer, configurable: true })
  Object.defineProperty(window, 'SpeechSynthesisUtterance', { value: Utterance, configurable: true })
  Object.defineProperty(window, 'sidecallVoice', { value: scripted })
}
