// Points git at .ci/hooks. Outside a git checkout (an unpacked archive, a container) there is nothing to point.
import { execFileSync } from 'node:child_process'
import { existsSync } from 'node:fs'

const top = new URL('../', import.meta.url)

if (existsSync(new URL('.git', top))) {
  try {
    execFileSync('git', ['config', 'core.hooksPath', '.ci/hooks'], { cwd: top, stdio: 'ignore' })
  } catch {
    console.warn('The commit hook is not set up: git could not be run.')
  }
}
