import { readFileSync } from 'node:fs';
import { planBag } from '../../../renderer/engine/bag/planBag.ts';
import { followPieces } from '../../../renderer/engine/outing/ledger/ledger.ts';
import { planFrom } from '../../../renderer/engine/plan/readPlan.ts';
import type { BagOuting } from '../../../shared-types/bag.ts';
import { planSchema, type Plan } from '../../../shared-types/plan.ts';

export const demoNames = ['skua-rock-light', 'tarn-array'] as const;

export interface DemoCourse {
  name: string;
  source: Plan;
  outings: BagOuting[];
}

/** Both worked examples with their least bags. */
export async function demoCourses(): Promise<DemoCourse[]> {
  const made: DemoCourse[] = [];
  for (const name of demoNames) {
    const text = readFileSync(new URL(`../../../data/demo/${name}.json`, import.meta.url), 'utf8');
    const source = planSchema.parse(JSON.parse(text));
    const { outings } = await planBag(planFrom(source), { minimise: 'mass' });
    made.push({ name, source, outings });
  }
  return made;
}

/** What the ledger says of a plan with these bags. */
export function followed({ source, outings }: Pick<DemoCourse, 'source' | 'outings'>) {
  return followPieces(planFrom(structuredClone(source)), outings);
}
