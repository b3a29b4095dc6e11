/** Puts the page's ears together: the browser's recogniser, our own, and the practice that goes with it. */
import { fewWords, type FewWords } from '../core/talk/few-words.ts'
import type { Clock } from '../ports/clock.ts'
import type { Ears } from '../ports/ears.ts'
import type { Locks } from '../ports/locks.ts'
import type { VoicePractice } from '../ports/voice-practice.ts'
import { attentiveEars } from './ears-attentive.ts'
import { bestEars } from './ears-best.ts'
import { EAR_FILES } from 'virtual:ear-files'
import { earFiles } from './ears-embedded/ear-files.ts'
import { embeddedRecogniser } from './ears-embedded/embedded-recogniser.ts'
import { engine, type EarsWorker } from './ears-embedded/engine.ts'
import { openMicrophone } from './ears-embedded/microphone.ts'
import { practiceTakes } from './ears-embedded/practice-takes.ts'
import { voicePractice } from './ears-embedded/voice-practice.ts'
import { webSpeechEars } from './ears-web-speech.ts'
import { httpVoiceShelf } from './voice-shelf-http.ts'
import { rememberedIn } from './engine-memory.ts'
import { microphonePermission } from './microphone-permission.ts'
import type { PageVisibility } from './page-visibility.ts'
import { listeningManner, recogniserOf } from './recogniser.ts'

export interface PageEars {
  readonly ears: Ears
  readonly practice: VoicePractice
  readonly fewWords: FewWords
}

export function pageEars(clock: Clock, visibility: PageVisibility, locks: Locks): PageEars {
  const own = engine({
    startWorker: (): EarsWorker =>
      new Worker(new URL('./ears-embedded/ears.worker.ts', import.meta.url), { type: 'module' }),
    files: () => earFiles(EAR_FILES, 'caches' in globalThis ? caches : null, (path) => fetch(path)),
    openMicrophone
  })
  const permission = microphonePermission('permissions' in navigator ? navigator.permissions : null)
  const common = {
    clock,
    chance: Math.random,
    visibility,
    permission,
    locks,
    onWake(tell: (why: 'online' | 'devicechange') => void) {
      addEventListener('online', () => tell('online'))
      navigator.mediaDevices?.addEventListener('devicechange', () => tell('devicechange'))
    }
  }
  const browser = webSpeechEars({
    ...common,
    name: 'browser',
    makeRecogniser: recogniserOf(globalThis),
    manner: listeningManner(navigator.userAgent),
    online: () => navigator.onLine,
    engineMemory: rememberedIn(() => localStorage, 'recogniser-absent')
  })
  const canRun = 'AudioWorkletNode' in globalThis && 'mediaDevices' in navigator
  const embedded = webSpeechEars({
    ...common,
    name: 'embedded',
    makeRecogniser: canRun ? () => embeddedRecogniser(own) : null,
    manner: 'keeps-listening',
    online: () => true,
    expect: own.listenFor,
    engineMemory: { recallAbsent: () => false, rememberAbsent: () => {} }
  })
  const practice = voicePractice(own, practiceTakes('sidecall-voice'), httpVoiceShelf())
  return {
    ears: attentiveEars(
      bestEars({
        browser,
        own: embedded,
        ownReady: () => (canRun ? practice.ready() : Promise.resolve(false)),
        microphoneAllowed: () => permission.now() === 'granted'
      }),
      clock
    ),
    practice,
    fewWords
  }
}
