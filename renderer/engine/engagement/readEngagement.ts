import {
  engagementSchema,
  type Engagement,
  type EngagementInput,
  type EngagementResult,
} from '../../../shared-types/engagement.ts';
import { RefusedError } from '../errors.ts';
import { refusalFromZod, rowFinder } from '../json/readJson.ts';
import {
  isPlausibleMPa,
  plausibleMPa,
  proofLoadN,
  readStrength,
  shearStrengthMPa,
  type Strength,
} from '../strength/index.ts';
import { readThread, type Thread } from '../thread/index.ts';
import { quantityIn, type Kind, type Unit } from '../units/index.ts';
import { pullOutLoadN } from './inserts.ts';
import { judgeEngagement, type LimitsAsked } from './judgeEngagement.ts';

/**
 * What fails first and the length needed, for the content of a JSON input.
 *
 *   as judgeEngagement, with quantities read and grades looked up
 *
 * @param given - the input's content, quantities with their units
 * @param origin - its file and text, for refusals
 * @returns areas [mm²], lengths [mm], loads [N], with assumptions and sources
 * @throws RefusedError naming file, row, field, value and reason
 * @source FED-STD-H28/2B, ASME B1.1 (memory), NASA TM-106943; strengths as readStrength
 * @validity as judgeEngagement
 * @example engagementFrom({ thread: '1/2-13', externalClass: '2A', internalClass: '2B', engagement: '0.5 in' }).requiredEngagementMm // 9.203
 */
export function engagementFrom(given: unknown, origin: { file?: string; text?: string } = {}): EngagementResult {
  const parsed = engagementSchema.safeParse(given);
  if (!parsed.success) throw refusalFromZod(parsed.error, { ...origin, input: given });
  try {
    return answered(parsed.data);
  } catch (error) {
    if (!(error instanceof RefusedError)) throw error;
    const { field } = error.refusal;
    const row = field === undefined || origin.text === undefined ? undefined : rowFinder(origin.text)(field);
    const { file } = origin;
    throw error.within({ ...(file === undefined ? {} : { file }), ...(row === undefined ? {} : { row }) });
  }
}

function answered(input: EngagementInput): EngagementResult {
  const thread = naming('thread', () => readThread(input.thread));
  const limits = limitsAsked(input, thread);
  const engagementMm = quantity('engagement', input.engagement, 'length', 'mm');
  const bolt = boltOf(input, thread);
  const ask = {
    thread,
    engagementMm,
    externalUltimateMPa: bolt?.ultimateMPa ?? ultimate('externalUltimate', input.externalUltimate),
    internalUltimateMPa: ultimate('internalUltimate', input.internalUltimate),
    limits,
  };
  try {
    // What is refused without a place of its own concerns the thread: its limits are not held.
    const judged = naming('thread', () => judgeEngagement(ask));
    return {
      ...judged,
      proofLoadN: bolt?.proofMPa == null ? null : proofLoadN({ ...thread, proofMPa: bolt.proofMPa }),
      insertPullOutN: insertPullOutN(input.insertMaterial, judged),
      sources: [...judged.sources, ...(bolt?.sources ?? [])],
    };
  } catch (error) {
    if (!(error instanceof RefusedError) || error.refusal.field !== 'engagement') throw error;
    throw new RefusedError({ ...error.refusal, value: input.engagement });
  }
}

function limitsAsked(input: EngagementInput, thread: Thread): LimitsAsked {
  const designated = { thread, areLimitsGiven: input.limits !== undefined };
  const externalClass = classOf('externalClass', 'A', input.externalClass, designated);
  const internalClass = classOf('internalClass', 'B', input.internalClass, designated);
  if (input.limits !== undefined) return { given: input.limits };
  if (externalClass !== undefined && internalClass !== undefined) return { externalClass, internalClass };
  const field = externalClass === undefined ? 'externalClass' : 'internalClass';
  throw new RefusedError({
    code: 'missing-field',
    message: `${field}: is missing: "${field === 'externalClass' ? '2A" or "3A' : '2B" or "3B'}", or all four limits, are asked for`,
    field,
  });
}

/** The class stated, held against the designation's own; that one where none is stated. */
function classOf<Name extends string>(
  field: 'externalClass' | 'internalClass',
  side: 'A' | 'B',
  stated: Name | undefined,
  { thread, areLimitsGiven }: { thread: Thread; areLimitsGiven: boolean },
): Name | undefined {
  const own = thread.system === 'unified' && thread.class?.endsWith(side) === true ? thread.class : null;
  if (own === null) return stated;
  if (stated !== undefined && stated !== own) {
    throw new RefusedError({
      code: 'contradiction',
      message: `${field}: "${stated}" contradicts the designation ${thread.designation}, which says ${own}`,
      field,
      value: stated,
    });
  }
  if (/^[23]/.test(own) || areLimitsGiven) return own as Name;
  throw new RefusedError({
    code: 'not-held',
    message: `thread: No published value held: limits of size are held for classes 2A, 3A, 2B and 3B, none for ${own}`,
    field: 'thread',
    value: own,
  });
}

/** The bolt's strength by its grade; its tensile strength has to be known. */
function boltOf(input: EngagementInput, thread: Thread): Strength | null {
  if (input.strength === undefined) return null;
  const field = 'strength';
  if (input.externalUltimate !== undefined) {
    throw new RefusedError({
      code: 'contradiction',
      message: `${field}: is given together with externalUltimate, which is the same; one of them is asked for`,
      field,
    });
  }
  const bolt = readStrength(input.strength, { thread, field });
  if (bolt.ultimateMPa !== null) return bolt;
  throw new RefusedError({
    code: 'missing-field',
    message: `${field}.ultimateMPa: is missing: stripping is judged against the tensile strength`,
    field: `${field}.ultimateMPa`,
  });
}

function insertPullOutN(material: string | undefined, { insertShearAreaMm2: area }: Engagement): number | null {
  if (material === undefined) return null;
  const shearMPa = naming('insertMaterial', () => shearStrengthMPa(material));
  if (area !== null) return pullOutLoadN({ shearAreaMm2: area.internal, shearStrengthMPa: shearMPa });
  throw new RefusedError({
    code: 'out-of-range',
    message:
      'insertMaterial: No published value held: NASA TM-106943 has inserts of inch threads from number 2 to 3/4 in',
    field: 'insertMaterial',
    value: material,
  });
}

function ultimate(field: 'externalUltimate' | 'internalUltimate', text: string | undefined): number | null {
  if (text === undefined) return null;
  const mpa = quantity(field, text, 'stress', 'MPa');
  if (isPlausibleMPa(mpa)) return mpa;
  const range = `${plausibleMPa.min} to ${plausibleMPa.max} MPa are taken`;
  throw new RefusedError({
    code: 'out-of-range',
    message: `${field}: ${mpa > 0 ? `no material has "${text}": ${range}` : 'must be more than 0'}`,
    field,
    value: text,
  });
}

function quantity(field: string, text: string, kind: Kind, unit: Unit): number {
  return naming(field, () => quantityIn(text, kind, unit));
}

function naming<T>(field: string, read: () => T): T {
  try {
    return read();
  } catch (error) {
    if (!(error instanceof RefusedError) || error.refusal.field !== undefined) throw error;
    throw new RefusedError({ ...error.refusal, message: `${field}: ${error.refusal.message}`, field });
  }
}
