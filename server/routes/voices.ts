/** Practised voices, for the other tablets of a shop. The page asks the person first. */
import { Hono, type Context } from 'hono'
import { bodyLimit } from 'hono/body-limit'
import { MOST_VOICE_BYTES, unpackedTakes } from '../../src/core/ears/packed-takes.ts'
import { notFound, problem } from '../problem.ts'
import type { VoiceStore, Whose } from '../voices/voice-store.ts'

const LONGEST_NAME = 200
const LANGUAGE = /^[a-z]{2,3}(-[A-Za-z0-9]{2,8})*$/

/** Null where no voices are kept: then there are none, and none is taken. */
export function voiceRoutes(voices: VoiceStore | null): Hono {
  const routes = new Hono()
  const limit = bodyLimit({
    maxSize: MOST_VOICE_BYTES,
    onError: (context) => problem(context, 413, 'Too large', `A voice has at most ${MOST_VOICE_BYTES} bytes.`)
  })

  routes.get('/voices/:person', async (context) => {
    const whose = whoseVoice(context)
    const bytes = whose && (await voices?.read(whose))
    return bytes ? context.body(bytes, 200, { 'content-type': 'application/octet-stream' }) : notFound(context)
  })
  routes.put('/voices/:person', limit, async (context) => {
    const whose = whoseVoice(context)
    if (!whose) return problem(context, 422, 'Nobody is named', 'Give a name, and ?language= with its tag.')
    const bytes = new Uint8Array(await context.req.arrayBuffer())
    if (unpackedTakes(bytes) === null)
      return problem(context, 422, 'Not a voice', 'Send band powers as the page packs them; sound is not taken.')
    const kept = voices?.keep(whose, bytes) ?? 'no-room'
    if (kept === 'too-many') return problem(context, 409, 'Too many voices', 'Delete some that nobody needs any more.')
    if (kept === 'no-room') return problem(context, 507, 'The disk is full', 'The voice was not kept.')
    return context.body(null, 204)
  })
  routes.delete('/voices/:person', (context) => {
    const whose = whoseVoice(context)
    if (!whose) return problem(context, 422, 'Nobody is named', 'Give a name, and ?language= with its tag.')
    voices?.forget(whose)
    return context.body(null, 204)
  })
  return routes
}

function whoseVoice(context: Context): Whose | null {
  const person = context.req.param('person') ?? ''
  const language = context.req.query('language') ?? ''
  return person.trim() !== '' && person.length <= LONGEST_NAME && LANGUAGE.test(language) ? { person, language } : null
}
