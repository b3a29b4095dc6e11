/**
 * SQLite for the Node that runs us. Version 12 of the binding aborts the process on Node 24.19 and later when a
 * statement is garbage-collected (its object wrapper meets no environment there); version 13 needs Node 22.
 */
import type BetterSqlite3 from 'better-sqlite3'

export type SqliteConnection = BetterSqlite3.Database

const NODE_API_FROM = 22

const engine: { readonly default: typeof BetterSqlite3 } =
  Number.parseInt(process.versions.node, 10) >= NODE_API_FROM
    ? await import('better-sqlite3-13')
    : await import('better-sqlite3')

export const Sqlite = engine.default
