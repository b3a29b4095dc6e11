/** Practised voices, for the other tablets of a shop. The page asks the person first. */
import { Hono, type Context } from 'hono'
import { bodyLimit } from 'hono/body-limit'
import { MOST_VOICE_BYTES, unpackedTakes, VOICE_REVISION } from '../../src/core/ears/packed-takes.ts'
import { notFound, problem } from '../problem.ts'
import type { VoiceChanged, VoiceStore, Whose } from '../voices/voice-store.ts'

const LONGEST_NAME = 200
const LANGUAGE = /^[a-z]{2,3}(-[A-Za-z0-9]{2,8})*$/
const REVISION = /^\d{1,9}$/

/** Null where no voices are kept: then there are none, and none is taken. */
export function voiceRoutes(voices: VoiceStore | null): Hono {
  const routes = new Hono()
  const limit = bodyLimit({
    maxSize: MOST_VOICE_BYTES,
    onError: (context) => problem(context, 413, 'Too large', `A voice has at most ${MOST_VOICE_BYTES} bytes.`)
  })

  routes.get('/voices/:person', (context) => {
    const asked = askedOf(context)
    const found = asked && (voices?.read(asked.whose) ?? null)
    // A server that was set back to an older backup has nothing to tell a device that knows better.
    if (!found || found.revision < asked.known) return notFound(context)
    if (found.kind === 'forgotten') return problem(context, 410, 'Forgotten', 'Whose voice it was wanted it gone.')
    const revision = { [VOICE_REVISION]: String(found.revision) }
    if (found.revision === asked.known) return context.body(null, 204, revision)
    return context.body(found.bytes, 200, { 'content-type': 'application/octet-stream', ...revision })
  })
  routes.put('/voices/:person', limit, async (context) => {
    const asked = askedOf(context)
    if (!asked) return notNamed(context)
    const bytes = new Uint8Array(await context.req.arrayBuffer())
    if (unpackedTakes(bytes) === null)
      return problem(context, 422, 'Not a voice', 'Send band powers as the page packs them; sound is not taken.')
    const kept = voices?.keep(asked.whose, bytes, asked.known) ?? NO_ROOM
    if (kept.kind === 'too-many')
      return problem(context, 409, 'Too many voices', 'Delete some that nobody needs any more.')
    return changed(context, kept)
  })
  routes.delete('/voices/:person', (context) => {
    const asked = askedOf(context)
    if (!asked) return notNamed(context)
    return changed(context, voices?.forget(asked.whose, asked.known) ?? { kind: 'done', revision: asked.known })
  })
  return routes
}

const NO_ROOM: VoiceChanged = { kind: 'no-room' }

function changed(context: Context, came: VoiceChanged): Response {
  if (came.kind === 'no-room') return problem(context, 507, 'The disk is full', 'What was asked could not be kept.')
  return context.body(null, 204, { [VOICE_REVISION]: String(came.revision) })
}

function notNamed(context: Context): Response {
  return problem(
    context,
    422,
    'Nobody is named',
    'Give a name, ?language= with its tag, and &known= with a revision, if you know one.'
  )
}

interface Asked {
  readonly whose: Whose
  /** The newest revision that the device has heard of. */
  readonly known: number
}

function askedOf(context: Context): Asked | null {
  const person = context.req.param('person') ?? ''
  const language = context.req.query('language') ?? ''
  const known = context.req.query('known') ?? '0'
  if (person.trim() === '' || person.length > LONGEST_NAME || !LANGUAGE.test(language) || !REVISION.test(known))
    return null
  return { whose: { person, language }, known: Number(known) }
}
