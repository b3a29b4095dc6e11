/** Reads the shop's schedule. A faulty one is told about, and nothing is due by it until it is mended. */
import { readFile } from 'node:fs/promises'
import { join } from 'node:path'
import { readSchedule } from '../../src/core/due/read-schedule.ts'
import { NO_SCHEDULE, type Schedule } from '../../src/core/due/schedule.ts'
import type { ProcedureFault } from '../../src/ports/server.ts'
import { codeOf, decoded, fault } from '../procedures/read-files.ts'

export interface LoadedSchedule {
  readonly schedule: Schedule
  readonly faults: readonly ProcedureFault[]
}

const FILE = 'due/schedule.yaml'

/** A shop without the file has nothing due. `folder` is that of the procedures. */
export async function loadSchedule(folder: string): Promise<LoadedSchedule> {
  const none = (...faults: readonly ProcedureFault[]): LoadedSchedule => ({ schedule: NO_SCHEDULE, faults })
  const bytes = await readFile(join(folder, FILE)).catch(codeOf)
  if (bytes === 'ENOENT') return none()
  if (typeof bytes === 'string')
    return none(fault(FILE, `The file cannot be read (${bytes}).`, 'Check its permissions.'))
  const text = decoded(bytes)
  if (text === null) return none(fault(FILE, 'The file is not in UTF-8.', 'Save it again with UTF-8 as its encoding.'))
  const read = readSchedule(text)
  if (read.kind === 'read') return { schedule: read.schedule, faults: [] }
  return none({ file: FILE, problems: read.problems.map(({ line, what, mend }) => ({ line, what, mend })) })
}
