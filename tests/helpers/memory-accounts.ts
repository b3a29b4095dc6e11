/** Accounts in a database that is gone with the test; passwords cost little to check. */
import { MIGRATIONS } from '../../server/storage/migrations.ts'
import { sqliteAccounts } from '../../server/storage/sqlite-accounts.ts'
import { Sqlite } from '../../server/storage/sqlite-engine.ts'
import type { Accounts } from '../../server/accounts/accounts.ts'
import { secretsWith, type Secrets } from '../../server/accounts/secrets.ts'

const CHEAP = { n: 2, r: 1, p: 1 }

/** Like those of a shop, but quick. */
export function cheapSecrets(): Secrets {
  return secretsWith(Buffer.alloc(32, 7), CHEAP)
}

export function memoryAccounts(): Accounts {
  const database = new Sqlite(':memory:')
  for (const step of MIGRATIONS) {
    if (typeof step === 'string') database.exec(step)
    else step(database)
  }
  return sqliteAccounts(database, cheapSecrets())
}
