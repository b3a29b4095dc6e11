import { runCommand } from '../sanitizer/command.ts'
import { planCommand } from './plan-command.ts'

runCommand(planCommand)
