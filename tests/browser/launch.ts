import { chromium, type Browser } from 'playwright-core'

/** The Chromium that tests, benches and pictures drive. */
export const CHROMIUM = process.env['SIDECALL_CHROMIUM'] ?? '/usr/bin/chromium'

/** `switches` besides those that a headless browser of root on a machine without a screen needs. */
export function launchChromium(...switches: readonly string[]): Promise<Browser> {
  return chromium.launch({ executablePath: CHROMIUM, args: ['--no-sandbox', '--disable-gpu', ...switches] })
}
