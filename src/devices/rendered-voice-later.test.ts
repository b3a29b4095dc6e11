import { expect, test } from 'vitest'
import { fakeClips } from '../../tests/helpers/fake-clips.ts'
import { promisesRun } from '../../tests/helpers/fake-clock.ts'
import { fakeMouth } from '../../tests/helpers/fake-mouth.ts'
import { renderedVoiceLater } from './rendered-voice-later.ts'

function world(failures = 0) {
  const [own, mouth, clips] = [fakeMouth(), fakeMouth(), fakeClips()]
  let loads = 0
  const voice = renderedVoiceLater(own, async () => {
    loads += 1
    if (loads <= failures) throw new TypeError('no network')
    return { clips, mouth }
  })
  return { own, mouth, clips, voice, loads: () => loads }
}

test('is loaded with the first procedure, once, and is told which', async () => {
  const { voice, clips, loads } = world()
  expect(loads()).toBe(0)
  voice.clips.want('one', 'en')
  voice.clips.want('two', 'en')
  await promisesRun()
  expect(loads()).toBe(1)
  expect(clips.wanted).toEqual(['two'])
  clips.become({ kind: 'whole', total: 5 })
  expect(voice.clips.state()).toEqual({ kind: 'whole', total: 5 })
})

test("before that the device's own voice says everything; after it the rendered one", async () => {
  const { voice, own, mouth } = world()
  void voice.mouth.say('Left.', 'en')
  expect(own.now()).toBe('Left.')
  voice.clips.want('one', 'en')
  await promisesRun()
  own.finish()
  void voice.mouth.say('Right.', 'en')
  expect(mouth.now()).toBe('Right.')
  voice.mouth.stop()
  expect(mouth.now()).toBe(null)
})

test('its state is that of whoever speaks', async () => {
  const { voice, own, mouth } = world()
  own.become({ kind: 'mute', reason: 'no-voice' })
  expect(voice.mouth.state()).toEqual({ kind: 'mute', reason: 'no-voice' })
  voice.clips.want('one', 'en')
  await promisesRun()
  expect(voice.mouth.state()).toEqual({ kind: 'ready' })
  mouth.become({ kind: 'mute', reason: 'needs-tap' })
  expect(voice.mouth.state()).toEqual({ kind: 'mute', reason: 'needs-tap' })
})

test('where it cannot be loaded the next procedure tries again', async () => {
  const { voice, own, clips, loads } = world(1)
  voice.clips.want('one', 'en')
  await promisesRun()
  void voice.mouth.say('Left.', 'en')
  expect(own.now()).toBe('Left.')
  voice.clips.rest()
  voice.clips.want('two', 'en')
  await promisesRun()
  expect(loads()).toBe(2)
  expect(clips.wanted).toEqual(['two'])
})
