/** A browser's service workers for one page: what they are is set by the test, step by step, as a browser would. */
export interface FakeServiceWorker extends EventTarget {
  state: ServiceWorkerState
  readonly messages: unknown[]
  /** Moves on, and tells. */
  become(state: ServiceWorkerState): void
  postMessage(message: unknown, ports: readonly MessagePort[]): void
  /** What the worker answers to whom asked last. */
  answer(message: unknown): void
}

export function fakeServiceWorker(state: ServiceWorkerState): FakeServiceWorker {
  let port: MessagePort | undefined
  const worker = Object.assign(new EventTarget(), {
    state,
    messages: [] as unknown[],
    become(next: ServiceWorkerState) {
      worker.state = next
      worker.dispatchEvent(new Event('statechange'))
    },
    postMessage(message: unknown, ports: readonly MessagePort[]) {
      worker.messages.push(message)
      port = ports[0]
    },
    answer(message: unknown) {
      if (!port) throw new Error('Nobody asked this worker anything.')
      port.postMessage(message)
    }
  })
  return worker
}

export interface FakeContainer extends EventTarget {
  controller: ServiceWorker | null
  register: ServiceWorkerContainer['register']
  readonly registered: [script: string, options: unknown][]
  readonly registration: EventTarget & Record<'installing' | 'waiting' | 'active', FakeServiceWorker | null>
  /** How often the page looked for a newer version. */
  looks: number
  /** The next look, or registering, fails as named. */
  failNext(message: string): void
  control(worker: FakeServiceWorker): void
}

export function fakeContainer(): FakeContainer {
  let fault: string | null = null
  const failing = () => {
    const message = fault
    fault = null
    if (message !== null) throw new TypeError(message)
  }
  const registration = Object.assign(new EventTarget(), {
    installing: null as FakeServiceWorker | null,
    waiting: null as FakeServiceWorker | null,
    active: null as FakeServiceWorker | null,
    async update() {
      container.looks += 1
      failing()
    }
  })
  const container: FakeContainer = Object.assign(new EventTarget(), {
    controller: null as ServiceWorker | null,
    registration,
    registered: [] as [string, unknown][],
    looks: 0,
    async register(script: string | URL, options?: RegistrationOptions) {
      container.registered.push([String(script), options])
      failing()
      return registration as unknown as ServiceWorkerRegistration
    },
    failNext(message: string) {
      fault = message
    },
    control(worker: FakeServiceWorker) {
      container.controller = worker as unknown as ServiceWorker
      container.dispatchEvent(new Event('controllerchange'))
    }
  })
  return container
}
