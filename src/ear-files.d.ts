declare module 'virtual:ear-files' {
  import type { EarFile } from './devices/ears-embedded/ear-files.ts'

  export const EAR_FILES: readonly EarFile[]
}
