/** The same interface, another version of the binding: see storage/sqlite-engine.ts. */
declare module 'better-sqlite3-13' {
  import Database from 'better-sqlite3'
  export default Database
}
