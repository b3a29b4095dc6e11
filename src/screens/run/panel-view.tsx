import { numberAsked } from '../../app/run-screen.ts'
import type { Panel } from '../../app/panels.ts'
import type { Call } from '../../core/run/call.ts'
import { CrewPanel } from './crew-panel.tsx'
import { CorrectionForm, EndEarlyForm, HandOverForm, ProblemForm, WordsForm } from './forms.tsx'
import { GuardPanel } from './guard-panel.tsx'
import { KeyList } from './key-list.tsx'
import { NumberPad } from './number-pad.tsx'
import { TranscriptPanel } from './transcript.tsx'
import { WipePanel } from './wipe-panel.tsx'
import { Ways } from './ways.tsx'

export interface PanelViewProps {
  readonly panel: Exclude<Panel, { kind: 'none' }>
  readonly call: Call
}

export function PanelView({ panel, call }: PanelViewProps) {
  switch (panel.kind) {
    case 'number': {
      const check = numberAsked(call)
      return check && 'lane' in call ? <NumberPad entry={panel} check={check} lane={call.lane} /> : null
    }
    case 'ways':
      return <Ways call={call} />
    case 'keys':
      return <KeyList />
    case 'guards':
      return <GuardPanel />
    case 'transcript':
      return <TranscriptPanel />
    case 'problem':
      return <ProblemForm />
    case 'other-correction':
      return <CorrectionForm call={call} />
    case 'words':
      return <WordsForm />
    case 'hand-over':
      return <HandOverForm />
    case 'crew':
      return <CrewPanel />
    case 'wipe':
      return <WipePanel />
    case 'end-early':
      return <EndEarlyForm />
  }
}
