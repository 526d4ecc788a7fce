import type { Citation } from '../../../shared-types/handbook.ts';
import type { HeadForm } from '../../../shared-types/plan.ts';
import { RefusedError } from '../errors.ts';
import { sameDocument } from '../handbook/documents.ts';
import { sameNominalMm } from './sameNominal.ts';
import type { HeadLimits, HeldHead } from './heldHead.ts';
import { heldHeads } from './heldHeads.ts';

/** What of a thread decides its head: the system and the nominal diameter. */
export interface HeadThread {
  system: 'metric' | 'unified';
  majorMm: number;
}

const sameThread = (head: HeldHead, thread: HeadThread): boolean =>
  head.system === thread.system && sameNominalMm(head.majorMm, thread.majorMm);

/**
 * Published across-flats limits of a head, by form and nominal width, and by thread where one is given.
 *
 * @param x.headForm - form of the head
 * @param x.acrossFlatsMm - s, nominal width across flats [mm]; of a hexagon socket the key's size
 * @param x.thread - system and nominal diameter [mm]; a thread whose table has another width gives null
 * @returns the limits [mm] with their source; null where no table prints any: nominal-only tables (ISO 272, DIN, heavy
 *   hex), twelve-point, square and hexalobular heads
 * @throws nothing; what is not held is null
 * @source ISO 4014, ISO 4032, ISO 4762, ASME B18.2.1; keys in data/SOURCES.md; text found in reproductions
 * @validity the products of those tables; a nominal width matches within 0.01 mm
 * @example headLimits({ headForm: 'hex', acrossFlatsMm: 16 }) // 16 to 15.73, corners from 17.77 (ISO 4014)
 */
export function headLimits(x: {
  headForm: HeadForm;
  acrossFlatsMm: number;
  thread?: HeadThread;
}): (HeadLimits & { citation: Citation }) | null {
  const { thread } = x;
  for (const head of heldHeads) {
    if (head.headForm !== x.headForm || head.limits === null) continue;
    if (!sameNominalMm(head.nominalMm, x.acrossFlatsMm)) continue;
    if (thread === undefined || sameThread(head, thread)) return { ...head.limits, citation: head.citation };
  }
  return null;
}

/**
 * The head of a thread: the product's own standard first, then ISO 272, unless a document is named.
 *
 * @param x.headForm - form of the head
 * @param x.thread - system and nominal diameter [mm]; its designation, for the words of a refusal
 * @param x.document - number of the standard, as a person writes it
 * @returns nominal width, limits where they are printed, source
 * @throws RefusedError not-held where no table has that form, that document or that size, naming what is held
 * @source the tables of heads in data/SOURCES.md
 * @validity the head forms and sizes that those tables print
 * @validity heads are held by diameter: a fine thread, of either hand, has the head of its diameter. In the comparison of DIN
 *   and ISO widths the number asked for decides the column.
 * @example headOfThread({ headForm: 'hex', thread: { system: 'metric', majorMm: 10 } }).nominal // '16 mm'
 */
export function headOfThread(x: {
  headForm: HeadForm;
  thread: HeadThread & { designation?: string };
  document?: string;
}): HeldHead {
  const { document, thread } = x;
  const ofForm = heldHeads.filter((head) => head.headForm === x.headForm);
  const ofDocument =
    document === undefined
      ? ofForm
      : ofForm.filter((head) => head.documents.some((name) => sameDocument(document, name)));
  const found = ofDocument.find((head) => sameThread(head, thread));
  if (found) return found;
  const inWords = thread.designation ?? `a ${thread.system} thread of ${thread.majorMm} mm`;
  throw headNotHeld({ headForm: x.headForm, ofForm, ofDocument, document, system: thread.system, thread: inWords });
}

/** Why no head is found: the form, the document or the size is not held; each time naming what is. */
function headNotHeld(x: {
  headForm: HeadForm;
  ofForm: readonly HeldHead[];
  ofDocument: readonly HeldHead[];
  document: string | undefined;
  system: 'metric' | 'unified';
  /** The thread in words. */
  thread: string;
}): RefusedError {
  const { headForm, document } = x;
  if (x.ofForm.length === 0) {
    return new RefusedError({
      code: 'not-held',
      message: `No published value is held for a ${headForm} head. Held are hex, heavy-hex, nut and hex-socket heads by thread, hexalobular ones by their own size.`,
      field: 'head',
      value: headForm,
    });
  }
  if (x.ofDocument.length === 0) {
    return new RefusedError({
      code: 'not-held',
      message: `No table of ${headForm} heads of "${document ?? ''}" is held. Held are: ${each(x.ofForm.flatMap((head) => head.documents))}.`,
      field: 'standard',
      value: document ?? '',
    });
  }
  const sizes = x.ofDocument.filter((head) => head.system === x.system).map((head) => head.size);
  const others = x.ofDocument.filter((head) => head.system !== x.system).map((head) => head.size);
  return new RefusedError({
    code: 'not-held',
    message:
      `No ${headForm} head for ${x.thread} is held${document === undefined ? '' : ` in "${document}"`}. ` +
      `Held are: ${each([...sizes, ...others])}.`,
    field: 'thread',
    value: x.thread,
  });
}

function each(names: string[]): string {
  return [...new Set(names)].join(', ');
}
