import { changeOf, type Mutation } from './mutations.ts';

/** A mutant that no test can tell from the engine as it is, with the reason. */
export interface Survivor {
  file: string;
  /** The line it stands in, without the blanks around it. */
  line: string;
  /** What stands there, and what would instead: `a < b → a <= b`. */
  change: string;
  reason: string;
}

export const survivors: readonly Survivor[] = [
  {
    file: 'renderer/engine/units/exact.ts',
    line: 'const decimals = 25 - magnitude;',
    change: '25 → 26',
    reason: 'More digits than a double holds, whether 25 or 26, give the same double.',
  },
  {
    file: 'renderer/engine/units/convert.ts',
    line: 'return magnitude > 1e-280 && magnitude < 1e280;',
    change: 'magnitude > 1e-280 → magnitude >= 1e-280',
    reason: 'Either side of the limit both ways of converting give the same double.',
  },
  {
    file: 'renderer/engine/units/convert.ts',
    line: 'return magnitude > 1e-280 && magnitude < 1e280;',
    change: 'magnitude < 1e280 → magnitude <= 1e280',
    reason: 'Either side of the limit both ways of converting give the same double.',
  },
  {
    file: 'renderer/engine/units/convert.ts',
    line: 'const magnitude = Math.abs(value);',
    change: 'Math.abs(value) → (value)',
    reason: 'Below 0 the exact way is then taken, which gives the same double.',
  },
  {
    file: 'renderer/engine/stack/stackTask.ts',
    line: "if (step.action === 'use' || !step.fastener || step.demandNm === null) return null;",
    change: "step.action === 'use' || !step.fastener → step.action === 'use' && !step.fastener",
    reason: 'A step by hand has no demand, which the same line asks for.',
  },
  {
    file: 'renderer/engine/stack/stackTask.ts',
    line: "if (step.action === 'use' || !step.fastener || step.demandNm === null) return null;",
    change:
      "step.action === 'use' || !step.fastener || step.demandNm === null → step.action === 'use' || !step.fastener && step.demandNm === null",
    reason: 'A plan is refused in which a step that turns has a demand and no fastener.',
  },
  {
    file: 'renderer/engine/stack/judgeStep.ts',
    line: 'hold: holding && pair.hold ? judge(holding, pair.hold) : null,',
    change: 'holding && pair.hold → holding || pair.hold',
    reason: 'A pair has a hold exactly where the step has one.',
  },
  {
    file: 'renderer/engine/socket/heldHeads.ts',
    line: 'if (max === null || min === null) return null;',
    change: 'max === null || min === null → max === null && min === null',
    reason: 'The table prints both limits of a socket or neither.',
  },
  {
    file: 'renderer/engine/torqueTable/heldBands.ts',
    line: 'min === undefined || max === undefined',
    change: 'min === undefined || max === undefined → min === undefined && max === undefined',
    reason: 'A row of a table has both ends of a band or neither; a single end stands beside null.',
  },
  {
    file: 'renderer/engine/thread/limitTolerances.ts',
    line: "if (x.internalClass === '2B' && atLeast(D, smallestLargeIn)) return n < 4 ? 0.15 * P : linear;",
    change: 'n < 4 → n <= 4',
    reason: 'At 4 threads an inch both formulas give the same.',
  },
  {
    file: 'renderer/engine/chance/normal.ts',
    line: 'if (z <= -tailFrom) return upperTail(-z);',
    change: 'z <= -tailFrom → z < -tailFrom',
    reason: 'At −2 series and fraction give the same double.',
  },
  {
    file: 'renderer/engine/chance/normal.ts',
    line: 'for (let middle = (low + high) / 2; middle > low && middle < high; middle = (low + high) / 2) {',
    change: 'low + high → low - high',
    reason: 'The search begins elsewhere between the same ends and ends at the same double.',
  },
  {
    file: 'renderer/engine/setting/readFurther.ts',
    line: 'polarMomentMm4: part.polarMomentMm4 ?? polarMomentMm4({ outsideMm: outsideMm ?? 1, insideMm }),',
    change: '1 → 2',
    reason: 'A diameter that is missing has been refused above; what stands in for it is never answered.',
  },
  {
    file: 'renderer/engine/setting/readScale.ts',
    line: 'r.refusals.attempt(field, typed, { value: 1, unit, nm: 1 }, () => readMark(typed, unit, least));',
    change: '1 → 2',
    reason: 'A mark that cannot be read has been refused; what stands in for it is never answered.',
  },
  {
    file: 'renderer/engine/torque/chooseSetting.ts',
    line: 'return Math.abs(difference) <= slack ? next.nm < best.nm : difference > 0;',
    change: 'Math.abs(difference) <= slack → Math.abs(difference) < slack',
    reason: 'Margins that differ by the tolerance to the last bit do not come about.',
  },
  {
    file: 'renderer/engine/torque/preloadChance.ts',
    line: 'probability: (hits[0] ?? 0) / x.samples,',
    change: '0 → 1',
    reason: 'The list has an entry for the setting chosen: the fallback only satisfies the compiler.',
  },
  {
    file: 'renderer/engine/torque/preloadChance.ts',
    line: 'const changes = new Int32Array(settings.length + 1);',
    change: '1 → 2',
    reason: 'One place more than is ever counted into.',
  },
  {
    file: 'renderer/engine/torque/preloadChance.ts',
    line: 'if (gain <= 0 || K <= 0) return noWindow;',
    change: 'gain <= 0 → gain < 0',
    reason: 'A drawn error that makes the gain exactly 0 does not come about.',
  },
  {
    file: 'renderer/engine/torque/torqueParts.ts',
    line: 'if (written.running === undefined || parts?.running === null || parts === null) {',
    change:
      'written.running === undefined || parts?.running === null → written.running === undefined && parts?.running === null',
    reason: 'A step has a running torque exactly where its writer gave one.',
  },
  {
    file: 'renderer/engine/preload/read/readingJoint.ts',
    line: 'if (minNm === null || maxNm === null) return { minNm: 1, maxNm: 1 };',
    change: '1 → 2',
    reason: 'An end that cannot be read has been refused; what stands in for it is never answered.',
  },
];

/** Why a mutant may survive; undefined where nobody has said. */
export function reasonFor(mutation: Mutation): string | undefined {
  const change = changeOf(mutation);
  return survivors.find(
    ({ file, line, change: known }) => file === mutation.file && line === mutation.lineText && known === change,
  )?.reason;
}
