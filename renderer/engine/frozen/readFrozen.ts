import type { BagResult } from '../../../shared-types/bag.ts';
import type { FrozenLine, FrozenPlace, FrozenThing, Revision } from '../../../shared-types/records/revision.ts';
import type { StepFacts } from '../cards/index.ts';
import { RefusedError } from '../errors.ts';
import { readPlan } from '../plan/readPlan.ts';
import type { ResolvedPlan } from '../plan/resolved.ts';

/** A frozen manifest, read. */
export interface Frozen {
  plan: ResolvedPlan;
  result: BagResult;
  things: readonly FrozenThing[];
  lines: readonly FrozenLine[];
  /** Pieces that a person laid, of every outing. */
  places: readonly FrozenPlace[];
  /** What its cards say of each step, by code. */
  facts: ReadonlyMap<string, StepFacts>;
  /** Lines of an outing, bag by bag. Empty for an outing that needs nothing. */
  linesOf: (outing: string) => readonly FrozenLine[];
  /** A thing by its code. Throws RefusedError where the manifest has no such thing. */
  thing: (code: string) => FrozenThing;
}

/**
 * A frozen manifest read again: what it says of plan, bag and things is what was frozen, whatever the catalog says by now.
 *
 * @param revision - as it is kept
 * @returns plan, answer, lines, things and the steps' facts
 * @throws RefusedError where its plan cannot be read, or a line names what it does not hold
 */
export function readFrozen({ number, content }: Pick<Revision, 'number' | 'content'>): Frozen {
  const { planText, result, things, lines, places = [] } = content;
  const file = `Revision ${number}`;
  const plan = readPlan(planText, file);
  const byCode = new Map(things.map((one) => [one.id, one]));
  const thing = (code: string): FrozenThing => {
    const found = byCode.get(code);
    if (found === undefined)
      throw new RefusedError({
        code: 'unknown-id',
        message: `it holds nothing called ${code}`,
        file,
        field: 'things',
        value: code,
      });
    return found;
  };
  const byOuting = new Map<string, FrozenLine[]>(plan.outings.map(({ id }) => [id, []]));
  for (const line of lines) {
    const own = byOuting.get(line.outing);
    if (own === undefined)
      throw new RefusedError({
        code: 'unknown-id',
        message: 'it has no such outing',
        file,
        field: 'lines.outing',
        value: line.outing,
      });
    thing(line.bag);
    thing(line.item);
    own.push(line);
  }
  return {
    ...{ plan, result, things, lines, places, thing },
    facts: new Map(content.facts.map(({ step, ifFails, ...facts }) => [step, { ...facts, ifFails }])),
    linesOf: (outing) => byOuting.get(outing) ?? [],
  };
}
