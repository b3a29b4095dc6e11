import { runCommand } from './command.ts'
import { judgeCommand } from './judge-command.ts'

runCommand(judgeCommand)
