import type { Citation } from '../../../shared-types/handbook.ts';
import type { HeadForm } from '../../../shared-types/plan.ts';
import { RefusedError } from '../errors.ts';
import { sameDocument } from '../handbook/documents.ts';
import { tableByKey } from '../handbook/tables.ts';
import { sameNominalMm } from './compare.ts';
import { heldHeads, type HeadLimits, type HeldHead } from './heldHeads.ts';

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
 * @param x.thread - system and nominal diameter [mm]
 * @param x.document - number of the standard, as a person writes it
 * @returns nominal width, limits where they are printed, source
 * @throws RefusedError not-held where no table has that form and size, naming the sizes that are held
 * @source the tables of heads in data/SOURCES.md
 * @example headOfThread({ headForm: 'hex', thread: { system: 'metric', majorMm: 10 } }).nominal // '16 mm'
 */
export function headOfThread(x: { headForm: HeadForm; thread: HeadThread; document?: string }): HeldHead {
  const { document } = x;
  const ofForm = heldHeads.filter(
    (head) => head.headForm === x.headForm && (document === undefined || isOf(head, document)),
  );
  const found = ofForm.find((head) => sameThread(head, x.thread));
  if (found) return found;
  const held = [...new Set(ofForm.map((head) => head.size))].join(', ');
  throw new RefusedError({
    code: 'not-held',
    message:
      `No ${x.headForm} head for a ${x.thread.system} thread of ${x.thread.majorMm} mm` +
      `${document === undefined ? '' : ` in "${document}"`} is held. Held are: ${held === '' ? 'none' : held}.`,
    value: x.thread.majorMm,
  });
}

function isOf(head: HeldHead, document: string): boolean {
  const { source, aliases } = tableByKey(head.citation.key);
  return [source.number, ...aliases].some((name) => sameDocument(document, name));
}
