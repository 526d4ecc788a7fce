import type { JointResult } from '../../../shared-types/joint.ts';
import { cautionShort } from '../caution.ts';
import { RefusedError } from '../errors.ts';
import { rowFinder } from '../json/readJson.ts';
import { assumptionsOf } from './assumptions.ts';
import { computeJoint } from './computeJoint.ts';
import { publishedFor } from './published.ts';
import { queriesOf } from './queries.ts';
import { readJoint, type JointOrigin, type ReadJoint } from './read/index.ts';
import { serviceOfJoint } from './serviceOfJoint.ts';
import { sourcesOf } from './sources.ts';
import { stopOfJoint } from './stopOfJoint.ts';

/**
 * Everything about one joint that the headless command `preload` answers: numbers, what they assume, where they come from.
 *
 *   read, compute, explain
 *
 * @param given - the command's input, as a value
 * @param origin - the file it stands in, if any
 * @returns the contract's result, with the stop limit and the service numbers where they are asked for
 * @throws RefusedError naming file, row, field, value and reason
 * @source as computeJoint
 * @validity as computeJoint
 * @example jointTask({ thread: 'M10', nutFactor: { nominal: 0.2 }, preload: '20 kN' }).torqueNm.seating.nominal // 40
 */
export function jointTask(given: unknown, origin: JointOrigin = {}): JointResult {
  const read = readJoint(given, origin);
  return located({ given, origin }, () => answer(read));
}

function answer(read: ReadJoint): JointResult {
  const { input, joint, stop, service } = read;
  const numbers = computeJoint(joint);
  refuseNotFinite(numbers, '');
  const { nominal, max } = numbers.preloadN;
  const result: JointResult = {
    ...numbers,
    ...(stop === null ? {} : { stopLimit: stopOfJoint(stop, joint, max) }),
    ...(service === null ? {} : { service: serviceOfJoint(service, nominal) }),
    published: publishedFor(input),
    queries: queriesOf(numbers),
    assumptions: assumptionsOf(read),
    sources: sourcesOf(read),
    caution: cautionShort,
  };
  refuseNotFinite({ service: result.service, stopLimit: result.stopLimit }, '');
  return result;
}

/** Inputs each in its range may still multiply beyond what a double holds. */
function refuseNotFinite(part: unknown, path: string): void {
  if (typeof part === 'number' && !Number.isFinite(part)) {
    throw new RefusedError({
      code: 'not-finite',
      message: `The joint's ${path} is beyond what can be computed: a quantity of the input is far too large or too small.`,
    });
  }
  if (typeof part !== 'object' || part === null) return;
  for (const [name, inner] of Object.entries(part)) refuseNotFinite(inner, path === '' ? name : `${path}.${name}`);
}

/** A fault found while computing belongs to the same file, and to a row and a value of it where it names a field. */
function located<T>({ given, origin }: { given: unknown; origin: JointOrigin }, run: () => T): T {
  try {
    return run();
  } catch (error) {
    if (!(error instanceof RefusedError)) throw error;
    const { field } = error.refusal;
    const { file, text } = origin;
    const row = field === undefined || text === undefined ? undefined : rowFinder(text)(field);
    const value = field === undefined ? undefined : valueAt(given, field);
    throw error.within({
      ...(file === undefined ? {} : { file }),
      ...(row === undefined ? {} : { row }),
      ...(value === undefined ? {} : { value }),
    });
  }
}

function valueAt(given: unknown, field: string): unknown {
  return field
    .split('.')
    .reduce<unknown>(
      (part, name) => (typeof part === 'object' && part !== null ? (part as Record<string, unknown>)[name] : undefined),
      given,
    );
}
