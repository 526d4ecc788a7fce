import type { JointInput, JointResult } from '../../../shared-types/joint.ts';
import { rootShearTorqueNm } from '../loosening/rootShear.ts';
import { stopLimit, type Rated } from '../loosening/stopLimit.ts';
import type { JointReading } from './read/readingJoint.ts';
import type { ResolvedJoint } from './resolvedJoint.ts';

/** The string of parts that loosens the fastener, with the ratings held. */
export function readStop(r: JointReading, stop: NonNullable<JointInput['stop']>): Rated[] {
  const rated = (field: string, text: string | undefined): number | null =>
    text === undefined ? null : r.amount(field, text, { kind: 'torque', unit: 'N·m', aboveZero: true });
  return [
    { name: stop.driver.name, ratedNm: rated('stop.driver.max', stop.driver.max) },
    ...stop.parts.map(({ name, ratedTorque }, index) => ({
      name,
      ratedNm: rated(`stop.parts[${index}].ratedTorque`, ratedTorque),
    })),
  ];
}

const rootName = 'root of the thread';

/** The stop limit while seated and once unseated. The root holds least at the greatest preload. */
export function stopOfJoint(
  parts: readonly Rated[],
  { screw, yieldMPa }: Pick<ResolvedJoint, 'screw' | 'yieldMPa'>,
  greatestPreloadN: number,
): NonNullable<JointResult['stopLimit']> {
  const unseated = stopLimit(parts);
  const { rootDiameterMm } = screw;
  const noRoot = (why: string) => ({
    seated: { torqueNm: null, setBy: null, reason: `no stop limit while seated: ${why}` },
    unseated,
    rootShearNm: null,
  });
  if (rootDiameterMm === null) return noRoot('no root diameter is held for this thread');
  if (yieldMPa === null) return noRoot('no yield strength of the fastener is given');
  if (greatestPreloadN > (Math.PI / 4) * rootDiameterMm ** 2 * yieldMPa) {
    return noRoot('the greatest preload yields the root without any torque');
  }
  const rootShearNm = rootShearTorqueNm({ rootDiameterMm, yieldMPa, preloadN: greatestPreloadN });
  return { seated: stopLimit([...parts, { name: rootName, ratedNm: rootShearNm }]), unseated, rootShearNm };
}
