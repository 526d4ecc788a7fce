/** An invented task of two outings: the first leaves two tethers at the mast foot on purpose, the second brings them home. */
import type { Deed, Discrepancy, OutingEvent, Revision, RevisionContent } from '../../shared-types/records/revision.ts';
import { planFrom } from '../../renderer/engine/plan/readPlan.ts';
import { contentHash } from '../../renderer/engine/record/chain.ts';
import { digest } from './frozenTask.ts';
import { mapResult, mapSource } from './bagMapPlan.ts';

const [outing] = mapSource.outings;
const [turn, wipe] = mapSource.steps;

export const twoSource = {
  ...mapSource,
  task: { id: 'M-2', name: 'Invented: mast in two goes' },
  places: [
    { id: 'foot', name: 'Mast foot' },
    { id: 'boat', name: 'Landing' },
  ],
  outings: [
    { ...outing, id: 'o', name: 'First outing' },
    { ...outing, id: 'p', name: 'Second outing' },
  ],
  steps: [
    { ...turn, moves: [{ id: 'T-07', quantity: 2, from: 'bag', to: 'foot' }] },
    wipe,
    {
      ...{ id: 'fetch', name: 'Fetch the tethers', outing: 'p', role: 'Lead', action: 'use', gear: [] },
      moves: [{ id: 'T-07', quantity: 2, from: 'foot', to: 'bag' }],
    },
  ],
};

export const twoPlan = planFrom(twoSource);

const line = (of: string, bag: string, item: string, quantity: number) => ({
  ...{ outing: of, bag, item, quantity, because: ['turn'] },
});

export const twoContent: RevisionContent = {
  planText: JSON.stringify(twoSource),
  result: mapResult,
  things: [
    { id: 'C', name: 'Common box', kind: 'bag', parts: 1 },
    { id: 'L', name: 'Lead’s bag', kind: 'bag', parts: 1 },
    { id: 'R-38', name: 'Ratchet', kind: 'driver', parts: 3 },
    { id: 'S-13', name: 'Socket 13 mm', kind: 'socket', parts: 1 },
    { id: 'T-07', name: 'Tool tether', kind: 'gear', parts: 2, tag: 7 },
    { id: 'W-10', name: 'Wipes', kind: 'gear', parts: 1, consumed: true },
    { id: 'Z', name: 'Second’s bag', kind: 'bag', parts: 1 },
  ],
  lines: [
    ...[line('o', 'L', 'R-38', 1), line('o', 'L', 'S-13', 1), line('o', 'C', 'T-07', 3), line('o', 'Z', 'W-10', 2)],
    ...[line('p', 'L', 'R-38', 1), line('p', 'C', 'T-07', 4)],
  ],
  facts: [],
};

export const twoRevision: Revision = {
  ...{ id: 'rev-2', rev: 1, task: 'job', number: 2, called: 'Invented: mast in two goes' },
  ...{ at: '2026-11-26T08:00:00+01:00', by: { name: 'P. Packer', role: 'packer' }, why: 'First issue' },
  ...{ content: twoContent, hash: await contentHash(twoContent, digest) },
};

/** Events with numbers and times in order, and hashes of nothing: for what is folded, not for what is verified. */
export function eventsOf(
  deeds: readonly Deed[],
  x: { outing?: string; from?: number; revision?: string } = {},
): OutingEvent[] {
  const { outing: of = 'o', from = 1, revision = 'rev-2' } = x;
  return deeds.map((deed, at) => ({
    ...{ id: `e-${of}-${from + at}`, rev: 1, revision, no: from + at, outing: of, deed },
    ...{
      at: `2026-11-26T09:${String((from + at) % 60).padStart(2, '0')}:00+01:00`,
      by: { name: 'R. Rigger', role: 'packer' },
    },
    ...{ prev: '0'.repeat(64), hash: '0'.repeat(64) },
  }));
}

/** The first outing packed whole and gone. */
export const wentOut: Deed[] = [
  { kind: 'counted', bag: 'L', item: 'R-38', pieces: 1, parts: 3 },
  { kind: 'counted', bag: 'L', item: 'S-13', pieces: 1, parts: 1 },
  { kind: 'counted', bag: 'C', item: 'T-07', pieces: 1, parts: 2, label: '100000700128' },
  { kind: 'counted', bag: 'C', item: 'T-07', pieces: 2, parts: 4 },
  { kind: 'counted', bag: 'Z', item: 'W-10', pieces: 2, parts: 2 },
  { kind: 'issued' },
];

export function discrepancy(change: Partial<Discrepancy> = {}): Discrepancy {
  return {
    ...{ id: 'd-1', rev: 1, task: 'job', number: 1, revision: 'rev-2', outing: 'o', bag: 'C', item: 'T-07' },
    ...{ name: 'Tool tether', pieces: 1, parts: 2 },
    opened: { at: '2026-11-26T15:00:00+01:00', by: { name: 'R. Rigger', role: 'packer' } },
    lastSeen: { place: 'in Common box, as it left' },
    ...change,
  };
}
