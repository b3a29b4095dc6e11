import { runCommand } from './command.ts'
import { mixCommand } from './mix-command.ts'

runCommand(mixCommand)
