import { readFileSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { fileURLToPath } from 'node:url'
import { brotliCompressSync } from 'node:zlib'
import type { Rolldown } from 'vite'
import { defineConfig, type Plugin, type TestProjectInlineConfiguration } from 'vitest/config'
import { earFilesOfPage } from './vite.ear-files.ts'
import { pageFiles } from './vite.page-files.ts'

const inTop = (path: string): string => fileURLToPath(new URL(path, import.meta.url))

/** Tests of one project, found below the top folder. They run in Node; a browser is driven from there. */
function project(
  name: string,
  include: readonly string[],
  options: TestProjectInlineConfiguration['test'] = {}
): TestProjectInlineConfiguration {
  return { extends: true, test: { name, include: [...include], environment: 'node', ...options } }
}

/** Modules need not be loaded anew for every file: what a file changes outside of itself, it puts back. */
const TOGETHER = { isolate: false, maxWorkers: 2 }

/** A page in a real browser, on a slow machine. */
const PATIENT = { testTimeout: 120_000, hookTimeout: 120_000 }

/** Puts a compressed copy beside each text file of the page; the server gives it to browsers that take it. */
function compressedCopies(): Plugin {
  return {
    name: 'compressed-copies',
    apply: 'build',
    applyToEnvironment: ({ name }) => name === 'client',
    writeBundle({ dir = '' }, bundle) {
      for (const name of Object.keys(bundle).filter((file) => /\.(js|css|html)$/.test(file))) {
        writeFileSync(join(dir, `${name}.br`), brotliCompressSync(readFileSync(join(dir, name))))
      }
    }
  }
}

const WORKSHOP = /src\/(?:(?:app|screens)\/workshop\/|devices\/(?:workshop|draft-bench))/

/** All that the first load needs goes into one file, which compresses better than several; the entry stays its own. */
function fileOf(id: string, bundle: Rolldown.ChunkingContext): string | null {
  const entry = inTop('src/main.tsx')
  const needed = new Set([entry])
  for (const known of needed) for (const next of bundle.getModuleInfo(known)?.importedIds ?? []) needed.add(next)
  if (needed.has(id)) return id === entry ? null : 'first'
  // Opened as one.
  if (WORKSHOP.test(id)) return 'workshop'
  // What a run may need later is small: one file for all of it, since each file costs the service worker its hash.
  if (id.startsWith(inTop('src/screens/run/'))) return 'run-later'
  return PEOPLE.some((part) => id.startsWith(inTop(part))) ? 'people' : null
}

/** Signing in and whoever may come in: only ever needed together. */
const PEOPLE = [
  'src/screens/people/',
  'src/app/people-desk.ts',
  'src/devices/accounts-http.ts',
  'src/core/record/wire-accounts.ts',
  'src/core/record/account-kinds.ts'
]

export default defineConfig({
  root: inTop(process.env['VITEST'] ? '.' : 'src'),
  publicDir: inTop('public'),
  cacheDir: inTop('node_modules/.vite'),
  oxc: { jsx: { runtime: 'automatic', importSource: 'preact' } },
  plugins: [
    earFilesOfPage(inTop('src/devices/ears-embedded'), inTop('node_modules/.cache/ear-files')),
    compressedCopies(),
    pageFiles(inTop('dist/page'))
  ],
  // Nothing is put in line: the server's content security policy lets only files of its own run.
  worker: { format: 'es' },
  build: { emptyOutDir: true, modulePreload: { polyfill: false }, target: 'es2022', assetsInlineLimit: 0 },
  environments: {
    client: {
      build: {
        outDir: inTop('dist/page'),
        manifest: 'built-files.json',
        rolldownOptions: {
          input: inTop('src/index.html'),
          output: { codeSplitting: { groups: [{ name: fileOf, debugName: 'by need' }] } }
        }
      }
    },
    // After the page, since it holds the list of the page's files. Browsers look for it under this one name.
    worker: {
      consumer: 'client',
      build: {
        outDir: inTop('dist/page'),
        emptyOutDir: false,
        copyPublicDir: false,
        rolldownOptions: {
          input: { 'service-worker': inTop('src/service-worker.ts') },
          output: { format: 'iife', entryFileNames: '[name].js' }
        }
      }
    },
    server: {
      consumer: 'server',
      build: {
        outDir: inTop('dist/server'),
        copyPublicDir: false,
        rolldownOptions: {
          input: { main: inTop('server/main.ts'), 'speech-worker': inTop('server/speech/speech-worker.ts') },
          output: { entryFileNames: '[name].js' }
        }
      }
    }
  },
  builder: {
    async buildApp(builder) {
      for (const environment of Object.values(builder.environments)) await builder.build(environment)
    }
  },
  test: {
    // A test that asserts nothing cannot fail.
    expect: { requireAssertions: true },
    // Property tests share two slow cores with everything else in CI.
    testTimeout: 30_000,
    projects: [
      project('core', ['src/core/**/*.test.ts'], TOGETHER),
      project('page', ['src/**/*.test.{ts,tsx}'], { exclude: ['src/core/**'], ...TOGETHER }),
      project('server', ['server/**/*.test.ts'], TOGETHER),
      project('journeys', ['tests/**/*.test.ts'], { exclude: ['tests/browser/**'], ...TOGETHER }),
      // Screens can be looked at two at a time, and so can ears, which wait most of the time for somebody to have spoken;
      // what rings or is timed has the machine for itself afterwards.
      project('browser-screens', ['tests/browser/screens/*.test.ts'], {
        ...PATIENT,
        maxWorkers: 2,
        sequence: { groupOrder: 1 }
      }),
      project('browser-ears', ['tests/browser/ears/*.test.ts'], {
        ...PATIENT,
        maxWorkers: 2,
        sequence: { groupOrder: 2 }
      }),
      project('browser', ['tests/browser/*.test.ts'], {
        ...PATIENT,
        fileParallelism: false,
        sequence: { groupOrder: 3 }
      })
    ]
  }
})
