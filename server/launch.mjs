// `npm start`: from a fresh clone to a running Sidecall. The second time it only checks that nothing has changed.
// Nothing is imported up here, so that an old Node reaches the words below instead of a syntax error.
const OLDEST = [20, 19]

const [major, minor] = process.versions.node.split('.').map(Number)
if (major < OLDEST[0] || (major === OLDEST[0] && minor < OLDEST[1])) {
  fail('Sidecall needs Node ' + OLDEST.join('.') + ' or newer; this is ' + process.versions.node + '.')
}

const { buildIfStale, installIfStale, NotReady, top } = await import('./prepare.mjs')
try {
  await installIfStale()
  await buildIfStale()
} catch (error) {
  if (error instanceof NotReady) fail(error.message)
  throw error
}
// The server runs in this very process: signals, terminal and exit code are its own.
process.chdir(top)
await import('../dist/server/main.js')

function fail(words) {
  console.error('\nSidecall cannot start. ' + words)
  process.exit(1)
}
