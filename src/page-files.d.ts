/** Made by vite.page-files.ts when the worker is built. */
declare module 'virtual:page-files' {
  import type { PageVersion } from './devices/kept-page.ts'
  export const version: PageVersion
}
