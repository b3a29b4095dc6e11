// Known holes in what the program runs with (npm's advisories): high and critical ones fail. Where the registry cannot
// be asked, that is said and counts neither way: a check must not fail for want of a network.
import { spawnSync } from 'node:child_process'
import { fileURLToPath } from 'node:url'

const top = fileURLToPath(new URL('..', import.meta.url))
const asked = spawnSync('npm', ['audit', '--omit=dev', '--json'], { cwd: top, encoding: 'utf8', timeout: 120_000 })

let answer = null
try {
  answer = JSON.parse(asked.stdout)
} catch {
  // Told below.
}
const counts = answer?.metadata?.vulnerabilities
if (typeof counts !== 'object' || counts === null) {
  console.log(`Dependencies could not be audited: ${answer?.message ?? (asked.stderr || 'npm gave no answer').trim()}`)
  console.log('0 passed, 0 failed')
} else {
  const grave = Object.values(answer.vulnerabilities ?? {}).filter(({ severity }) =>
    ['high', 'critical'].includes(severity)
  )
  for (const { name, severity, range } of grave) console.log(`FAILED  ${name} ${range}: ${severity}`)
  console.log(`Advisories: ${counts.total ?? 0}, of these high or critical: ${grave.length}.`)
  console.log(grave.length === 0 ? '1 passed, 0 failed' : '0 passed, 1 failed')
  process.exitCode = grave.length === 0 ? 0 : 1
}
