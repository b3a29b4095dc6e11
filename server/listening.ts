/** Where the server listens: why it cannot, and how it stops without cutting anybody off. */
import type { ServerType } from '@hono/node-server'

const LOOK_AGAIN_MS = 50

export function whyNotListening(error: NodeJS.ErrnoException, port: number, hostname: string): readonly string[] {
  switch (error.code) {
    case 'EADDRINUSE':
      return [`Port ${port} is in use.`, 'Stop the other program, or choose another port: PORT=4181 npm start']
    case 'EACCES':
      return [`Port ${port} may not be used by this user.`, 'Choose one above 1023: PORT=4180 npm start']
    case 'EADDRNOTAVAIL':
    case 'ENOTFOUND':
    case 'EAI_AGAIN':
      return [
        `HOST is "${hostname}", which is no address of this machine.`,
        'Leave it out, or set it to 0.0.0.0 for all.'
      ]
    default:
      return [`The server cannot listen: ${error.message}`]
  }
}

/** Resolves when everyone has been answered. Browsers keep connections open after that; they are closed as they fall idle. */
export async function closeGently(server: ServerType): Promise<void> {
  const closeIdle = (): void => {
    if ('closeIdleConnections' in server) server.closeIdleConnections()
  }
  const looking = setInterval(closeIdle, LOOK_AGAIN_MS)
  await new Promise<void>((resolve) => server.close(() => resolve()))
  clearInterval(looking)
}
