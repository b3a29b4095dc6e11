import { resolve } from 'node:path'
import { expect, test } from 'vitest'
import { pageAddress, readSettings } from './settings.ts'

test('without any, the server is for this machine alone', () => {
  const dataFolder = resolve('data')
  const settings = { speech: 'rendered', spanishVoice: null, port: 4180, hostname: '127.0.0.1', dataFolder }
  expect(readSettings({})).toEqual({ kind: 'read', settings })
  expect(readSettings({ PORT: '', HOST: '', SIDECALL_DATA: '', SIDECALL_SPEECH: '' })).toEqual({
    kind: 'read',
    settings
  })
})

test('each can be chosen', () => {
  const settings = {
    speech: 'off',
    spanishVoice: '/usr/bin/espeak-ng',
    port: 80,
    hostname: '0.0.0.0',
    dataFolder: resolve('somewhere/else')
  }
  expect(
    readSettings({
      PORT: '80',
      HOST: '0.0.0.0',
      SIDECALL_DATA: 'somewhere/else',
      SIDECALL_SPEECH: 'off',
      SIDECALL_SPANISH_VOICE: '/usr/bin/espeak-ng'
    })
  ).toEqual({
    kind: 'read',
    settings
  })
})

test.each(['0', '65535'])('port %s is one', (port) => {
  expect(readSettings({ PORT: port })).toMatchObject({ kind: 'read', settings: { port: Number(port) } })
})

test.each(['65536', '-1', '80.5', '1e3', '0x50', 'http', ' 80', '999999999999'])('port %j is none', (port) => {
  expect(readSettings({ PORT: port })).toEqual({
    kind: 'faulty',
    what: `PORT is "${port}", which is no port number.`,
    mend: 'Set it to a number from 1 to 65535.'
  })
})

test('speech is rendered or off', () => {
  expect(readSettings({ SIDECALL_SPEECH: 'no' })).toEqual({
    kind: 'faulty',
    what: 'SIDECALL_SPEECH is "no".',
    mend: 'Set it to rendered or off.'
  })
})

test.each([
  ['127.0.0.1', 'http://localhost:4180'],
  ['0.0.0.0', 'http://localhost:4180'],
  ['::1', 'http://localhost:4180'],
  ['192.168.1.20', 'http://192.168.1.20:4180'],
  ['fd00::20', 'http://[fd00::20]:4180'],
  ['shop.example', 'http://shop.example:4180']
])('a browser finds %s at %s', (hostname, address) => {
  expect(pageAddress(hostname, 4180)).toBe(address)
  expect(URL.canParse(address)).toBe(true)
})
