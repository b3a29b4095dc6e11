/** What a new procedure begins with: two sides, one step, and the words that every procedure should carry. */
export function emptyProcedure(id: string, title: string): string {
  // A JSON string is a YAML one.
  const named = JSON.stringify(title)
  return `# yaml-language-server: $schema=./procedure.schema.json
procedure: ${id}
title: ${named}
summary: Write what it does. The maker's manual, the product label and local code come first.
languages: [en]
machine: ${named}
sides:
  - { id: left, name: Left }
  - { id: right, name: Right }
stages:
  - stage: Get ready
    steps:
      - step: gather
        on: whole machine
        say: Gather the supplies on the list.
        hands: 2 min
`
}
