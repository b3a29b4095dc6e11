import { verifyCommand } from './verify-command.ts'

const { code, lines } = verifyCommand(process.argv.slice(2))
for (const line of lines) (code === 0 ? console.log : console.error)(line)
process.exitCode = code
