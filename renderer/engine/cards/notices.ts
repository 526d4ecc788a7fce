import { signalWords } from '../../../shared-types/plan.ts';
import type { Caution } from '../../../shared-types/plan.ts';
import type { CardNotice } from './card.ts';

/** Cautions by what they warn of, DANGER before WARNING, CAUTION and NOTICE; equal ones as given. ANSI Z535: the gravest hazard rules. */
export function gravestFirst(cautions: readonly Caution[]): Caution[] {
  return cautions.toSorted((a, b) => signalWords.indexOf(a.word) - signalWords.indexOf(b.word));
}

/** What is said before a step: its cautions, then its watch-outs; the same words once. */
export function noticesOf(cautions: readonly Caution[], watchOuts: readonly string[]): CardNotice[] {
  return [
    ...gravestFirst(cautions),
    ...[...new Set(watchOuts)].map((text): CardNotice => ({ word: 'Watch-out', text })),
  ];
}
