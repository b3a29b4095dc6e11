import { chainEverything } from './chain-everything.ts'
import type { SqliteConnection } from './sqlite-engine.ts'

/** SQL, or what SQL alone cannot do. */
export type Migration = string | ((database: SqliteConnection) => void)

/** The store's shape, step by step. A step that has been released is never changed; a new one is added. */
export const MIGRATIONS: readonly Migration[] = [
  `
  CREATE TABLE procedures (
    hash TEXT PRIMARY KEY,
    id TEXT NOT NULL,
    canonical TEXT NOT NULL,
    source TEXT NOT NULL,
    published_at INTEGER NOT NULL
  ) STRICT;

  CREATE TABLE current_procedures (
    id TEXT PRIMARY KEY,
    hash TEXT NOT NULL REFERENCES procedures (hash)
  ) STRICT;

  CREATE TABLE events (
    position INTEGER PRIMARY KEY AUTOINCREMENT,
    id TEXT NOT NULL UNIQUE,
    run_id TEXT NOT NULL,
    type TEXT NOT NULL,
    canonical TEXT NOT NULL,
    received_at INTEGER NOT NULL
  ) STRICT;
  CREATE INDEX events_by_run ON events (run_id, position);

  -- One row a run, kept in step with its events in the same transaction, so that lists need no replay.
  CREATE TABLE runs (
    run_id TEXT PRIMARY KEY,
    started TEXT,
    operator TEXT NOT NULL,
    last_at REAL NOT NULL,
    open INTEGER NOT NULL
  ) STRICT;
  CREATE INDEX runs_by_last ON runs (last_at);

  CREATE TABLE facts (
    name TEXT PRIMARY KEY,
    value TEXT NOT NULL
  ) STRICT;
  `,
  // Hand-overs and starts may arrive in any order: a row keeps the events themselves, so that the order decides.
  `
  ALTER TABLE runs ADD COLUMN handed_over TEXT;
  UPDATE runs SET
    handed_over = (
      SELECT canonical FROM events WHERE events.run_id = runs.run_id AND type = 'handed-over'
      ORDER BY canonical ->> 'at' DESC, canonical ->> 'device' DESC, canonical ->> 'seq' DESC LIMIT 1
    ),
    started = (
      SELECT canonical FROM events WHERE events.run_id = runs.run_id AND type = 'run-started'
      ORDER BY canonical ->> 'at', canonical ->> 'device', canonical ->> 'seq' LIMIT 1
    );
  ALTER TABLE runs DROP COLUMN operator;
  `,
  // Who is at work follows from everyone's coming and going, not from the last hand-over alone.
  `
  ALTER TABLE runs ADD COLUMN crew_changes TEXT NOT NULL DEFAULT '[]';
  UPDATE runs SET crew_changes = (
    SELECT json_group_array(
      json(canonical) ORDER BY canonical ->> 'at', canonical ->> 'device', canonical ->> 'seq'
    )
    FROM events WHERE events.run_id = runs.run_id AND type IN ('joined', 'left', 'handed-over')
  );
  ALTER TABLE runs DROP COLUMN handed_over;
  `,
  // What a run's entries are chained by; what came before there were chains is chained in the order it came.
  `
  ALTER TABLE events ADD COLUMN site TEXT NOT NULL DEFAULT '';
  ALTER TABLE events ADD COLUMN place INTEGER NOT NULL DEFAULT 0;
  ALTER TABLE events ADD COLUMN link TEXT NOT NULL DEFAULT '';

  CREATE TABLE chains (
    site TEXT PRIMARY KEY,
    place INTEGER NOT NULL,
    link TEXT NOT NULL
  ) STRICT;
  `,
  chainEverything,
  // What a list of records shows: how each run ended, and whether somebody has signed for all of it.
  `
  ALTER TABLE runs ADD COLUMN ended TEXT;
  ALTER TABLE runs ADD COLUMN entries INTEGER NOT NULL DEFAULT 0;
  ALTER TABLE runs ADD COLUMN signed TEXT NOT NULL DEFAULT '[]';
  UPDATE runs SET
    ended = (
      SELECT canonical FROM events WHERE events.run_id = runs.run_id AND type IN ('run-finished', 'run-abandoned')
      ORDER BY canonical ->> 'at', canonical ->> 'device', canonical ->> 'seq' LIMIT 1
    ),
    entries = (SELECT count(*) FROM events WHERE events.run_id = runs.run_id);
  `,
  // Who may do what. Nobody is deleted, because records name them; what people did is only ever added to.
  `
  CREATE TABLE people (
    id TEXT PRIMARY KEY,
    name TEXT NOT NULL,
    name_key TEXT NOT NULL UNIQUE,
    role TEXT NOT NULL CHECK (role IN ('operator', 'supervisor', 'owner')),
    secret TEXT,
    added_at INTEGER NOT NULL,
    ended_at INTEGER
  ) STRICT;

  CREATE TABLE sessions (
    token TEXT PRIMARY KEY,
    person TEXT NOT NULL REFERENCES people (id),
    begun_at INTEGER NOT NULL,
    seen_at INTEGER NOT NULL,
    elevated_until INTEGER NOT NULL
  ) STRICT;
  CREATE INDEX sessions_by_person ON sessions (person);

  CREATE TABLE devices (
    id TEXT PRIMARY KEY,
    token TEXT NOT NULL UNIQUE,
    name TEXT NOT NULL,
    paired_at INTEGER NOT NULL,
    seen_at INTEGER NOT NULL,
    ended_at INTEGER
  ) STRICT;

  CREATE TABLE links (
    id TEXT PRIMARY KEY,
    token TEXT NOT NULL UNIQUE,
    kind TEXT NOT NULL CHECK (kind IN ('inspector', 'calendar')),
    note TEXT NOT NULL,
    machine TEXT,
    made_by TEXT NOT NULL,
    made_at INTEGER NOT NULL,
    expires_at INTEGER NOT NULL,
    ended_at INTEGER
  ) STRICT;

  CREATE TABLE codes (
    token TEXT PRIMARY KEY,
    kind TEXT NOT NULL CHECK (kind IN ('owner', 'password', 'pairing')),
    person TEXT,
    expires_at INTEGER NOT NULL
  ) STRICT;

  CREATE TABLE name_checks (
    id TEXT PRIMARY KEY,
    person TEXT NOT NULL REFERENCES people (id),
    name TEXT NOT NULL,
    at INTEGER NOT NULL
  ) STRICT;

  CREATE TABLE attempts (
    subject TEXT PRIMARY KEY,
    failures INTEGER NOT NULL,
    last_at INTEGER NOT NULL,
    blocked_until INTEGER NOT NULL
  ) STRICT;

  CREATE TABLE deeds (
    id INTEGER PRIMARY KEY AUTOINCREMENT,
    at INTEGER NOT NULL,
    by TEXT NOT NULL,
    device TEXT NOT NULL,
    what TEXT NOT NULL,
    about TEXT NOT NULL
  ) STRICT;
  CREATE TRIGGER deeds_stay BEFORE UPDATE ON deeds BEGIN SELECT raise(ABORT, 'what was done is never changed'); END;
  CREATE TRIGGER deeds_are_kept BEFORE DELETE ON deeds BEGIN SELECT raise(ABORT, 'what was done is never deleted'); END;
  `,
  // Replacing one would delete it without a word of the triggers before.
  `
  CREATE TRIGGER deeds_are_added BEFORE INSERT ON deeds WHEN EXISTS (SELECT 1 FROM deeds WHERE id = NEW.id)
  BEGIN SELECT raise(ABORT, 'what was done is never replaced'); END;
  `,
  // Procedures in the making, and what was published here rather than by a file. A draft that is gone has no text.
  `
  CREATE TABLE drafts (
    id TEXT PRIMARY KEY,
    text TEXT,
    revision INTEGER NOT NULL,
    saved_by TEXT NOT NULL,
    saved_at INTEGER NOT NULL,
    base TEXT
  ) STRICT;

  CREATE TABLE releases (
    number INTEGER PRIMARY KEY AUTOINCREMENT,
    id TEXT NOT NULL,
    hash TEXT NOT NULL REFERENCES procedures (hash),
    -- Of this publishing: comments can differ where the version does not.
    source TEXT NOT NULL,
    note TEXT NOT NULL,
    released_by TEXT NOT NULL,
    released_at INTEGER NOT NULL,
    follows_file INTEGER NOT NULL,
    reasons TEXT NOT NULL
  ) STRICT;
  CREATE INDEX releases_by_id ON releases (id, number);
  `,
  // Everybody who reads a run sees the checks that it names. Where it was not kept who got one, nobody did.
  `
  ALTER TABLE name_checks ADD COLUMN given_to TEXT;
  `,
  // Procedures that are no longer offered. A new version of one offers it again; its file alone does not.
  `
  CREATE TABLE put_away (
    id TEXT PRIMARY KEY,
    put_by TEXT NOT NULL,
    put_at INTEGER NOT NULL
  ) STRICT;
  `
]
