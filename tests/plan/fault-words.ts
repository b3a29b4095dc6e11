/** What keeps a problem from being planned, for whoever wrote the procedure. */
import type { Fault } from '../../src/core/plan/problem.ts'

export function faultWords(fault: Fault): string {
  switch (fault.kind) {
    case 'bad-time':
      return `${place(fault)} has a time that is not zero or more.`
    case 'maximum-under-minimum':
      return `${place(fault)} has a longest wait that is shorter than its shortest.`
    case 'unknown-tool':
      return `${place(fault)} takes "${fault.tool}", which is not in the list of tools.`
    case 'tools-never-free':
      return `${place(fault)} never gets its tools: in whatever order the lanes are served, another lane holds them.`
    case 'too-many-lanes':
      return `There are ${fault.lanes} lanes, more than can be planned at once.`
    case 'too-many-tasks':
      return `There are at least ${fault.tasks} steps on all lanes together, repeats included: more than can be planned at once.`
  }
}

function place({ lane, step }: { readonly lane: string; readonly step: string }): string {
  return `Step "${step}" on ${lane}`
}
