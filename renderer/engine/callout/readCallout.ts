import { headForms, type HeadForm } from '../../../shared-types/plan.ts';
import { readJson } from '../json/readJson.ts';
import type { RowReading } from '../sheet/index.ts';
import { isPlausibleMPa, plausibleMPa, type Strength } from '../strength/index.ts';
import type { Callout } from './callout.ts';
import type { HeldFacts, ThreadFacts } from './heldFacts.ts';
import { readAlternative, readAngle, readBand, readPasses } from './readTorque.ts';
import { readEngagement, readTightening } from './readJointFields.ts';

const torque = { kind: 'torque', unit: 'N·m', least: 'zero' } as const;
const force = { kind: 'force', unit: 'N', least: 'zero' } as const;

/**
 * One callout out of a row.
 *
 * @param row - reads the cells and gathers what it refuses
 * @param facts - what is held of the threads met so far
 * @returns null where anything of the row is refused
 */
export function readCallout(
  row: RowReading,
  facts: HeldFacts,
  otherColumns: Record<string, string> | null,
): Callout | null {
  const id = row.text('id');
  if (id === null) row.missing('id');
  const thread = readThreadOf(row, facts);
  const band = readBand(row);
  const running = readRunning(row);
  const preloadMinN = row.quantity('preloadMin', force)?.value ?? null;
  const preloadMaxN = row.quantity('preloadMax', force)?.value ?? null;
  if (preloadMinN !== null && preloadMaxN !== null && preloadMinN > preloadMaxN)
    row.refuse('preloadMin', 'contradiction', 'is above preloadMax', row.text('preloadMin') ?? '');
  const callout = {
    id: id ?? '',
    row: row.row,
    alternative: readAlternative(row),
    strength: readStrengthOf(row, thread),
    head: row.choice<HeadForm>('head', headForms),
    wrench: readWrench(row, facts),
    locking: row.text('locking'),
    runningMinNm: running.runningMinNm,
    runningMaxNm: running.runningMaxNm,
    breakawayMinNm: row.quantity('breakawayMin', torque)?.value ?? null,
    runningIncluded: yesOrNo(row),
    lubrication: row.text('lubrication'),
    tightening: readTightening(row, thread),
    scatter: row.number('scatter', asShareBelow1),
    engagementMm: readEngagement(row, thread),
    internalUltimateMPa: readUltimate(row),
    preloadMinN,
    preloadMaxN,
    toolAccuracy: row.number('toolAccuracy', asShareBelow1),
    passes: readPasses(row),
    angleDeg: readAngle(row),
    otherColumns,
    band: band?.band ?? noBand,
    unit: band?.unit ?? 'N·m',
  };
  if (row.isBad || id === null || thread === null || band === null) return null;
  return Object.assign(callout, { thread });
}

function readThreadOf(row: RowReading, facts: HeldFacts): ThreadFacts | null {
  const known = facts.known(row.text('thread') ?? '');
  if (known !== undefined) return known;
  const designation = row.sized('thread');
  if (designation === null) row.missing('thread');
  return designation === null ? null : row.attempt('thread', designation, () => facts.ofThread(designation));
}

const noBand = { minNm: 0, maxNm: 0 };

const asShareBelow1 = {
  isShare: true,
  holds: (value: number): boolean => value >= 0 && value < 1,
  range: '0 to below 1, or below 100 %, as 4 %',
};

function readRunning(row: RowReading): Pick<Callout, 'runningMinNm' | 'runningMaxNm'> {
  const min = row.quantity('runningMin', torque);
  const max = row.quantity('runningMax', torque);
  if (min !== null && max !== null && min.value > max.value * (1 + 1e-9))
    row.refuse('runningMin', 'contradiction', `is above runningMax, ${max.text}`, min.text);
  return { runningMinNm: min?.value ?? null, runningMaxNm: max?.value ?? null };
}

function yesOrNo(row: RowReading): boolean | null {
  const word = row.choice('runningIncluded', ['yes', 'no']);
  return word === null ? null : word === 'yes';
}

/** A class or a grade; or, in one cell, {"proofMPa": 600}. */
function readStrengthOf(row: RowReading, thread: ThreadFacts | null): Strength | null {
  const known = thread?.knownStrength(row.text('strength') ?? '');
  if (known !== undefined) return known;
  const text = row.sized('strength');
  if (text === null || thread === null) return null;
  return row.attempt('strength', text, () =>
    thread.strength(text.startsWith('{') ? readJson(text, { maxBytes: 2000 }) : text, text),
  );
}

function readWrench(row: RowReading, facts: HeldFacts): Callout['wrench'] {
  const known = facts.wrenches.peek(row.text('wrench') ?? '');
  if (known !== undefined) return known;
  const text = row.sized('wrench');
  if (text === null) return null;
  if (/^T\s*\d+$/i.test(text)) return { hexalobular: text.replace(/\s+/g, '').toUpperCase(), text };
  const size = row.quantity('wrench', { kind: 'length', unit: 'mm', least: 'above zero' });
  return size === null ? null : facts.wrenches.get(text, () => ({ mm: size.value, text }));
}

function readUltimate(row: RowReading): number | null {
  const found = row.quantity('internalUltimate', { kind: 'stress', unit: 'MPa', least: 'above zero' });
  if (found === null || isPlausibleMPa(found.value)) return found?.value ?? null;
  const { min, max } = plausibleMPa;
  row.refuse('internalUltimate', 'out-of-range', `no material has it: ${min} to ${max} MPa are taken`, found.text);
  return null;
}
