/** Programs that stand for espeak-ng, which is not everywhere: Node itself, told what to do. */
import { expect, test } from 'vitest'
import { hostVoice, type Patience } from './host-voice.ts'

const SAYS_ITS_LENGTH = `
  let text = ''
  process.stdin.on('data', (part) => (text += part)).on('end', () => {
    const wav = Buffer.alloc(44 + 2 * Buffer.byteLength(text))
    // As a program writes it that does not know yet how long it will be.
    wav.write('RIFF'); wav.writeUInt32LE(0x7ffff024, 4); wav.write('WAVEfmt ', 8)
    wav.writeUInt32LE(22050, 24); wav.write('data', 36); wav.writeUInt32LE(0x7ffff000, 40)
    Buffer.from(text).forEach((byte, at) => wav.writeInt16LE(byte, 44 + 2 * at))
    process.stdout.write(wav)
  })`
const voice = (script: string, patience?: Patience) => hostVoice(process.execPath, ['-e', script], patience)
/** Long enough for Node to start, so that the program is there to be asked. */
const SHORT = { ms: 1500, graceMs: 100 }
const DEAF = `process.on('SIGTERM', () => {}); setInterval(() => {}, 1000)`

test('says the text that is put in, in UTF-8, at the rate that it names', async () => {
  const sound = await voice(SAYS_ITS_LENGTH)('¿Está? $(rm) `x` "y"')
  expect(sound?.rate).toBe(22_050)
  expect(Buffer.from(sound?.pcm ?? []).toString('utf8')).toBe('¿Está? $(rm) `x` "y"')
})

test.each([
  ['that is not there', hostVoice('/nowhere/espeak-ng')],
  ['that fails', voice('process.exit(3)')],
  ['that says nothing', voice('process.exit(0)')],
  ['that does not read', voice('process.stdin.destroy(); process.exit(0)')],
  ['that hangs', voice('setInterval(() => {}, 1000)', SHORT)],
  ['that does not end when it is asked to', voice(DEAF, SHORT)],
  [
    'whose own program holds on to its output',
    voice(
      `require('node:child_process').spawn(process.execPath, ['-e', 'setTimeout(() => {}, 8000)'], { stdio: 'inherit' }); ${DEAF}`,
      SHORT
    )
  ]
])('a program %s gives no clip', async (_, speak) => {
  expect(await speak('Hola. '.repeat(20_000))).toBeNull()
})
