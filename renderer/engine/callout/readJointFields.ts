import { screwThreadArmMm } from '../preload/formula/index.ts';
import type { Tightening } from '../preload/resolvedJoint.ts';
import type { RowReading } from '../sheet/index.ts';
import { atMost } from '../tolerance.ts';
import type { ThreadFacts } from './heldFacts.ts';

const frictionColumns = ['frictionThread', 'frictionBearing', 'bearingDiameter'] as const;

/** Beyond what any surface has (common practice, no source); published nut factors are 0.11 to 0.30. */
const [nutFactorLeast, nutFactorMost] = [0.001, 10];
/** A bearing face wider than this belongs to no fastener (common practice, no source). */
const bearingMostMm = 10_000;
/** Above ten diameters no engagement is meant (common practice, no source). */
const engagementMostDiameters = 10;

const asNutFactor = {
  isShare: false,
  holds: (value: number): boolean => value >= nutFactorLeast && value <= nutFactorMost,
  range: `${nutFactorLeast} to ${nutFactorMost}`,
};
const asThreadFriction = {
  isShare: false,
  holds: (value: number): boolean => value > 0 && value < 1,
  range: 'more than 0 and below 1',
};
const asBearingFriction = {
  isShare: false,
  holds: (value: number): boolean => value >= 0 && value < 1,
  range: '0 to below 1',
};

/** How the callout's torque becomes preload: by its nut factor, or by three columns of friction. There is no default. */
export function readTightening(row: RowReading, facts: ThreadFacts | null): Tightening | null {
  if (row.isEmpty('nutFactor') && frictionColumns.every((name) => row.isEmpty(name))) return null;
  const nutFactor = row.number('nutFactor', asNutFactor);
  const thread = row.number('frictionThread', asThreadFriction);
  const bearing = row.number('frictionBearing', asBearingFriction);
  const diameter = row.quantity('bearingDiameter', { kind: 'length', unit: 'mm', least: 'zero' });
  const given = frictionColumns.filter((name) => row.text(name) !== null);
  const [first] = given;
  if (first !== undefined && row.text('nutFactor') !== null) {
    row.refuse('nutFactor', 'contradiction', `is given together with ${given.join(', ')}: one of the two is asked for`);
    return null;
  }
  if (first !== undefined && given.length < frictionColumns.length) {
    for (const name of frictionColumns)
      if (!given.includes(name)) row.refuse(name, 'missing-field', `is empty, and ${given.join(', ')} is given`);
    return null;
  }
  if (diameter !== null && diameter.value > bearingMostMm)
    row.refuse('bearingDiameter', 'out-of-range', `is more than ${bearingMostMm} mm`, diameter.text);
  if (facts === null) return null;
  if (nutFactor !== null)
    return { by: 'nutFactor', nominal: nutFactor, min: nutFactor, max: nutFactor, diameterMm: facts.thread.majorMm };
  if (thread === null || bearing === null || diameter === null) return null;
  row.attempt('frictionThread', String(thread), () => screwThreadArmMm({ ...facts.screw, friction: thread }));
  return { by: 'friction', form: 'screw', thread, bearing, bearingDiameterMm: diameter.value };
}

/** Length of engagement [mm], at most ten diameters. */
export function readEngagement(row: RowReading, facts: ThreadFacts | null): number | null {
  const found = row.quantity('engagement', { kind: 'length', unit: 'mm', least: 'above zero' });
  if (found === null || facts === null) return null;
  const mostMm = engagementMostDiameters * facts.thread.majorMm;
  if (atMost(found.value, mostMm)) return found.value;
  row.refuse(
    'engagement',
    'out-of-range',
    `is longer than can be: at most ${engagementMostDiameters} diameters are taken`,
    found.text,
  );
  return null;
}
