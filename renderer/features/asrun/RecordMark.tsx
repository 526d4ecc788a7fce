import { StateMark } from '../../components/StateMark/StateMark.tsx';
import { recordStateWords } from './recordStateWords.ts';
import type { MarkedRecord } from './recordStateWords.ts';

export function RecordMark({ line }: { line: MarkedRecord }) {
  return <StateMark state={line.state} text={recordStateWords(line)} />;
}
