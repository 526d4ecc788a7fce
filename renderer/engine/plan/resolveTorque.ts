import type { PlanCatalog } from '../../../shared-types/plan.ts';
import { RefusedError } from '../errors.ts';
import type { Reading } from './reading.ts';
import type { ResolvedTorque } from './resolved.ts';

/** A torque tool's scale. Settings keep the unit they are marked in; multiples keep the increment's. */
export function resolveTorque(r: Reading, at: string, t: PlanCatalog['torqueTools'][number]): ResolvedTorque {
  const minNm = r.torqueNm(`${at}.min`, t.min);
  const maxNm = r.strengthNm(`${at}.max`, t.max);
  r.refusals.attempt(`${at}.min`, t.min, undefined, () => {
    if (!r.isAbove(minNm, maxNm)) return;
    throw new RefusedError({ code: 'contradiction', message: `is above this tool's max, ${t.max}` });
  });
  r.refusals.attempt(at, t.id, undefined, () => {
    if ((t.increment === undefined) !== (t.settings === undefined)) return;
    const said = t.increment === undefined ? 'neither' : 'both';
    throw new RefusedError({
      code: said === 'both' ? 'contradiction' : 'missing-field',
      message: `a torque tool has an increment or a list of settings; this one gives ${said}`,
    });
  });
  return {
    minNm,
    maxNm,
    increment: t.increment === undefined ? null : r.scaled(`${at}.increment`, t.increment),
    settings: t.settings?.map((text, index) => r.scaled(`${at}.settings[${index}]`, text)) ?? null,
    accuracyOfReading: t.accuracyOfReading,
    loosens: t.loosens ?? false,
  };
}
