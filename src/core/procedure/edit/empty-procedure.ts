import { beginText } from './begin-text.ts'

/** What a new procedure begins with: two sides, one step, and the words that every procedure should carry. */
export function emptyProcedure(id: string, title: string, language: string): string {
  // A JSON string is a YAML one.
  const named = JSON.stringify(title)
  const words = (key: Parameters<typeof beginText>[0]) => JSON.stringify(beginText(key, [language]))
  return `# yaml-language-server: $schema=./procedure.schema.json
procedure: ${id}
title: ${named}
summary: ${words('summary')}
languages: [${language}]
machine: ${named}
sides:
  - { id: left, name: ${words('left')} }
  - { id: right, name: ${words('right')} }
stages:
  - stage: ${words('stage')}
    steps:
      - step: gather
        on: whole machine
        say: ${words('gather')}
        hands: 2 min
`
}
