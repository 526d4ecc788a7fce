import { signalWords } from '../../../shared-types/plan.ts';
import type { Caution } from '../../../shared-types/plan.ts';
import type { CardNotice } from './card.ts';

/** Cautions by what they warn of, DANGER before WARNING, CAUTION and NOTICE; equal ones as given. ANSI Z535: the gravest hazard rules. */
export function gravestFirst(cautions: readonly Caution[]): Caution[] {
  return cautions.toSorted((a, b) => signalWords.indexOf(a.word) - signalWords.indexOf(b.word));
}

export interface BeforeStep {
  /** What is kept and cannot be followed. */
  notUsed: readonly string[];
  watchOuts: readonly string[];
}

/** What is said before a step: its cautions, what cannot be followed, its watch-outs; the same words once. */
export function noticesOf(cautions: readonly Caution[], { notUsed, watchOuts }: BeforeStep): CardNotice[] {
  return [
    ...gravestFirst(cautions),
    ...notUsed.map((text): CardNotice => ({ word: 'Not used', text })),
    ...[...new Set(watchOuts)].map((text): CardNotice => ({ word: 'Watch-out', text })),
  ];
}
