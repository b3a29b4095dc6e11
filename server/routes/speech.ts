/** Spoken clips: which there are for a procedure, and each for ever by the hash of its bytes; and the engine, for texts that have none. */
import { readFile } from 'node:fs/promises'
import { Hono } from 'hono'
import { notFound } from '../problem.ts'
import { engineFile } from '../speech/engine.ts'
import type { Speech } from '../speech/speech.ts'

/** Null where nothing is rendered: then there is no manifest, and devices use their own voice. */
export function speechRoutes(speech: Speech | null): Hono {
  const routes = new Hono()
  routes.get('/speech/procedures/:hash', async (context) => {
    const language = context.req.query('language') ?? 'en'
    const manifest = (await speech?.manifest(context.req.param('hash'), language)) ?? null
    return manifest === null ? notFound(context) : context.json(manifest)
  })

  routes.get('/speech/clips/:hash', async (context) => {
    const bytes = (await speech?.clip(context.req.param('hash'))) ?? null
    if (bytes === null) return notFound(context)
    return context.body(bytes, 200, {
      'content-type': 'audio/wav',
      'cache-control': 'public, max-age=31536000, immutable'
    })
  })

  routes.get('/speech/engine', async (context) => {
    if (speech === null) return notFound(context)
    return context.body(Uint8Array.from(await readFile(engineFile())), 200, {
      'content-type': 'application/wasm',
      'cache-control': 'public, max-age=86400'
    })
  })
  return routes
}
