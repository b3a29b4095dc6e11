/** Who may use which route: the whole list. What is not in it is refused. */

/**
 * - `anyone`: also somebody we know nothing of.
 * - `run`: what a run at a machine needs: a paired device, or somebody signed in.
 * - `records`: reading what was done: these, or an inspector's link.
 * - `calendar`: what is due: as `run`, or a calendar's link.
 * - `author`: a supervisor or an owner who is signed in; before the shop has an owner, everybody.
 * - `supervisor`: a supervisor or an owner who is signed in.
 * - `elevated`: one of them who gave the password within the last minutes.
 * - `owner`: an owner who is signed in.
 *
 * Before the shop has an owner, `run`, `records`, `calendar` and `author` are open, and the rest is refused. A connection
 * from the same machine has no right of its own: a proxy's connections look the same.
 */
export type Right = 'anyone' | 'run' | 'records' | 'calendar' | 'author' | 'supervisor' | 'elevated' | 'owner'

/** By method and path. GET stands for HEAD too. */
export const RIGHTS: Readonly<Record<string, Right>> = {
  'GET /api/health': 'anyone',
  // A device that lost its pairing in the middle of a run must still keep its waits.
  'GET /api/time': 'anyone',

  'GET /api/procedures': 'run',
  'GET /api/procedures/:hash': 'records',
  'GET /api/rules': 'run',
  'POST /api/events': 'run',
  'GET /api/runs': 'run',
  'GET /api/runs/:id/events': 'records',
  'GET /api/live': 'run',
  'GET /api/times/:procedureId': 'run',
  'GET /api/wear': 'run',
  'GET /api/speech/procedures/:hash': 'run',
  'GET /api/speech/clips/:hash': 'run',
  'GET /api/speech/engine': 'run',
  'GET /api/voices/:person': 'run',
  'PUT /api/voices/:person': 'run',
  'DELETE /api/voices/:person': 'run',
  'GET /api/due': 'run',
  'GET /api/due.ics': 'calendar',

  'GET /api/records': 'records',
  'GET /api/trends': 'records',
  'GET /api/export.json': 'records',
  'GET /api/export.csv': 'records',
  'POST /api/runs/:id/signatures': 'elevated',

  'GET /api/workshop': 'author',
  'GET /api/workshop/drafts/:id': 'author',
  'PUT /api/workshop/drafts/:id': 'author',
  'DELETE /api/workshop/drafts/:id': 'author',
  'GET /api/workshop/procedures/:id/versions': 'author',
  'GET /api/workshop/versions/:hash/source': 'author',
  'POST /api/workshop/speech': 'author',
  'POST /api/workshop/drafts/:id/publish': 'elevated',
  'POST /api/workshop/procedures/:id/go-back': 'elevated',
  'POST /api/workshop/procedures/:id/put-away': 'elevated',

  'GET /api/me': 'anyone',
  'POST /api/password': 'anyone',
  'POST /api/session': 'anyone',
  'DELETE /api/session': 'anyone',
  'POST /api/session/elevation': 'supervisor',
  'PUT /api/me/password': 'supervisor',
  'DELETE /api/me/sessions': 'supervisor',

  'GET /api/names': 'run',
  'POST /api/names/:id/check': 'run',

  'GET /api/people': 'supervisor',
  'POST /api/people': 'elevated',
  'PATCH /api/people/:id': 'elevated',
  'PUT /api/people/:id/pin': 'elevated',
  'POST /api/people/:id/password-code': 'elevated',

  'GET /api/devices': 'supervisor',
  'POST /api/devices': 'anyone',
  'DELETE /api/devices/:id': 'elevated',
  'POST /api/pairing-codes': 'elevated',

  'GET /api/links': 'supervisor',
  'POST /api/links': 'elevated',
  'DELETE /api/links/:id': 'elevated',
  'POST /api/links/open': 'anyone',

  'GET /api/deeds': 'owner'
}
