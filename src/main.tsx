/** Puts the page together: the only place where devices meet the app. */
import { atom } from 'nanostores'
import { render } from 'preact'
import { v7 as uuidv7 } from 'uuid'
import { startApp } from './app/app.ts'
import { openRunScreens } from './app/run-screen.ts'
import { webAudioAlarm } from './devices/alarm-web-audio.ts'
import { browserClock } from './devices/clock-browser.ts'
import { earsLater } from './devices/ears-later.ts'
import { indexedDbEventLog } from './devices/event-log-indexeddb.ts'
import { domKeys } from './devices/keys-dom.ts'
import { webLocks } from './devices/locks-web.ts'
import { speechSynthesisMouth } from './devices/mouth-speech-synthesis.ts'
import { pageUpdatesLater } from './devices/page-updates-later.ts'
import { pageVisibility } from './devices/page-visibility.ts'
import { planInPage, startPlannerWorker, workerPlanner } from './devices/planner-worker.ts'
import { listenAgain } from './app/listen-again.ts'
import { offerUpdates } from './app/page-updates.ts'
import { wakeScreenLock } from './devices/screen-lock-wake.ts'
import { serverOverHttp } from './devices/server-http.ts'
import { sseServerStream } from './devices/server-stream-sse.ts'
import { renderedVoiceLater } from './devices/rendered-voice-later.ts'
import { startWakerWorker, workerWaker } from './devices/waker-worker.ts'
import { lookAsSet } from './screens/look.ts'
import { Screens, Starting } from './screens/screens.tsx'
import { screenWordsEn } from './screens/words.en.ts'

const page = document.getElementById('page')
if (!page) throw new Error('index.html has no element for the page.')
// Asking the server for the time can take as long as a request may.
render(<Starting words={screenWordsEn} />, page)

const clock = browserClock()
const visibility = pageVisibility()
const locks = webLocks('locks' in navigator ? navigator.locks : null)
const zone = new Intl.DateTimeFormat().resolvedOptions().timeZone
const makeContext = 'AudioContext' in globalThis ? () => new AudioContext() : null
const audioSession = 'audioSession' in navigator ? (navigator.audioSession as { type: string }) : null

// Their code comes while the first screen is being shown.
const listening = import('./devices/page-ears.ts').then(({ pageEars }) => pageEars(clock, visibility, locks))
const ears = earsLater(listening.then((both) => both.ears))

const alarm = webAudioAlarm({ makeContext, clock, audioSession })
const own = speechSynthesisMouth({
  synthesizer: 'speechSynthesis' in globalThis ? speechSynthesis : null,
  makeUtterance: (text) => new SpeechSynthesisUtterance(text),
  clock,
  rate: 1
})
const { clips, mouth } = renderedVoiceLater(own, async () => {
  const { renderedVoice } = await import('./devices/rendered-voice.ts')
  const kept = 'caches' in globalThis ? caches : null
  const { output } = alarm
  return renderedVoice({
    caches: kept,
    fetch: (request) => fetch(request),
    clock,
    origin: location.origin,
    output,
    own
  })
})

const app = await startApp({
  clock,
  ears,
  practice: async () => (await listening).practice,
  fewWords: async () => (await listening).fewWords,
  mouth,
  clips,
  alarm,
  waker: workerWaker(startWakerWorker, clock),
  planner: workerPlanner(startPlannerWorker, planInPage),
  log: indexedDbEventLog({
    databaseName: 'sidecall',
    clock,
    channel: 'BroadcastChannel' in globalThis ? new BroadcastChannel('sidecall') : null
  }),
  locks,
  screenLock: wakeScreenLock('wakeLock' in navigator ? navigator.wakeLock : null, visibility, clock),
  server: serverOverHttp(),
  stream: sseServerStream('EventSource' in globalThis ? () => new EventSource('/api/live') : null),
  records: async () => (await import('./devices/records-http.ts')).recordsOverHttp(),
  accounts: async () => (await import('./devices/accounts-http.ts')).accountsOverHttp(),
  workshop: async () => (await import('./devices/workshop-devices.ts')).workshopDevices(),
  newId: () => uuidv7(),
  zone,
  languages: navigator.languages
})
const { $runScreen } = openRunScreens(app, domKeys(clock), clock)
const $mayBeCleared = atom(false)
void import('./devices/storage-persist.ts')
  .then(({ askToKeepStorage }) => askToKeepStorage('storage' in navigator ? navigator.storage : null))
  .then(({ persistence }) => $mayBeCleared.set(persistence === 'may-be-cleared'))
const updates = pageUpdatesLater(async () => {
  const { serviceWorkerUpdates } = await import('./devices/page-updates-service-worker.ts')
  const container = 'serviceWorker' in navigator ? navigator.serviceWorker : null
  return serviceWorkerUpdates({ container, secure: isSecureContext })
})
visibility.onMoment(() => app.wake())
// After the #, which no server and no log ever sees.
const [, token] = /^#read=([\w-]+)$/.exec(location.hash) ?? []
if (token) {
  history.replaceState(null, '', location.pathname)
  void app.readWith(token)
}
addEventListener('online', () => app.wake())

lookAsSet(app.$settings, document.documentElement)
render(
  <Screens
    surroundings={{
      app,
      words: screenWordsEn,
      loadCheck: async () => {
        const { soundCheck } = await import('./app/sound-check.ts')
        return soundCheck({ ears, mouth, alarm, clock }, app)
      },
      listen: () => listenAgain(ears, app.manner().language),
      watchTouches: async (judge) => (await import('./devices/touches-dom.ts')).domTouches(clock, window).watch(judge),
      $mayBeCleared,
      updates: offerUpdates(updates, app, () => location.reload()),
      zone
    }}
    $runScreen={$runScreen}
  />,
  page
)
