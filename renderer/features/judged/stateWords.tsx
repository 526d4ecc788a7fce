import type { CalloutLine, LineState } from '../../../shared-types/inspection.ts';
import { StateMark } from '../../components/StateMark/StateMark.tsx';

export const lineStateWords: Record<LineState, string> = {
  conforming: 'Conforming',
  nonconforming: 'Nonconforming',
  indeterminate: 'Indeterminate',
  unreadable: 'Not readable',
};

/** What a line is decided to be. That a person accepted it is said beside, and changes nothing. */
export function LineMark({ line }: { line: Pick<CalloutLine, 'state' | 'open' | 'accepted'> }) {
  const { state, open, accepted } = line;
  const more = accepted === 0 ? '' : open === 0 ? ', accepted' : ', accepted in part';
  return <StateMark state={state} text={`${lineStateWords[state]}${more}`} />;
}
