import type { FrozenThing } from '../../../shared-types/records/revision.ts';
import { amountText } from '../../engine/packing/index.ts';
import type { Chunk, Entry, PackedBag, PackedLine, PackState, Totals } from '../../engine/packing/index.ts';
import type { ResolvedPlan } from '../../engine/plan/resolved.ts';
import type { MarkState } from '../../components/StateMark/StateMark.tsx';
import { countOf } from '../steps/words.ts';

/** "Lead’s bag L"; a bag without a name of its own is its code. */
export function bagWords({ name, id }: Pick<FrozenThing, 'name' | 'id'>): string {
  return name === id ? `bag ${id}` : `${name} ${id}`;
}

export function outingWords(plan: ResolvedPlan, outing: string): string {
  const name = plan.outings.find(({ id }) => id === outing)?.name ?? outing;
  return name === outing ? `outing ${outing}` : name;
}

/** "Pocket A", "Lines 11 to 20", "Pocket A, part 2 of 3". */
export function chunkWords({ pocket, part, parts, lines }: Chunk, bag: Pick<PackedBag, 'lines'>): string {
  if (pocket !== null) return parts === 1 ? `Pocket ${pocket}` : `Pocket ${pocket}, part ${part} of ${parts}`;
  const [first, last] = [lines[0], lines.at(-1)].map((line) => (line === undefined ? 0 : bag.lines.indexOf(line) + 1));
  if (lines.length === bag.lines.length) return 'All lines';
  return first === last ? `Line ${first}` : `Lines ${first} to ${last}`;
}

/** The same where there is little room. */
export function chunkLabel({ pocket, part, parts, lines }: Chunk, bag: Pick<PackedBag, 'lines'>): string {
  if (pocket !== null) return parts === 1 ? pocket : `${pocket} ${part}/${parts}`;
  const [first, last] = [lines[0], lines.at(-1)].map((line) => (line === undefined ? 0 : bag.lines.indexOf(line) + 1));
  return first === last ? `${first}` : `${first}–${last}`;
}

/** "2 to pack, 1 missing"; nothing where it is whole. */
export function lackWords({ open, missing, partial }: Totals): string {
  return [
    ...(open > 0 ? [`${open} to pack`] : []),
    ...(missing > 0 ? [`${missing} missing`] : []),
    ...(partial > 0 ? [`${partial} not whole`] : []),
  ].join(', ');
}

/** Mark and word of a line; `next` is where the hand goes on. */
export function lineMark(
  { state, open, missing, counted, thing }: PackedLine,
  isNext: boolean,
): {
  mark: MarkState;
  word: string;
} {
  if (state === 'packed') return { mark: 'packed', word: 'Packed' };
  if (state === 'missing') return { mark: 'missing', word: counted.parts === 0 ? 'Missing' : 'Short, named' };
  const parts = open.pieces === 0 && thing.parts > 1 ? `${countOf(open.parts, 'part')} to come` : null;
  if (isNext) return { mark: 'next', word: parts ?? 'Next' };
  return { mark: missing.parts > 0 ? 'missing' : 'to-pack', word: parts ?? 'To pack' };
}

/** "1 of 4", of several parts "1 of 1, 2 of 3 parts". */
export function countWords({ line, thing, counted }: PackedLine): string {
  const pieces = `${counted.pieces} of ${line.quantity}`;
  const whole = counted.pieces * thing.parts;
  return counted.parts === whole ? pieces : `${pieces}, ${counted.parts} of ${whole} parts`;
}

const clockOf = (at: string): string => at.slice(11, 19);

function entryWords({ kind, at, by, labels, reason, ...amount }: Entry, partsEach: number): string {
  const how = amountText(amount, partsEach);
  if (kind === 'missing') return `Missing ${how}, ${clockOf(at)}, ${by.name}: ${reason ?? ''}`;
  if (kind === 'carried-over') return `Carried over ${how}, ${clockOf(at)}`;
  return `Packed ${how} ${clockOf(at)}${labels.length > 0 ? ' by its label' : ''}, ${by.name}`;
}

/** Where it is kept, of how many parts it is, and what was done with it last. */
export function noteWords({ line, thing, entries }: PackedLine): string[] {
  const missing = entries.filter(({ kind }) => kind === 'missing');
  const last = entries.findLast(({ kind }) => kind !== 'missing');
  return [
    ...(thing.keptAt === undefined || (last !== undefined && missing.length === 0) ? [] : [thing.keptAt]),
    ...(thing.parts > 1 ? [`${thing.parts} parts each`] : []),
    ...(line.apart ?? []).map(({ pocket, pieces }) => `${pieces} of them into ${pocket}`),
    ...(last === undefined ? [] : [entryWords(last, thing.parts)]),
    ...missing.map((entry) => entryWords(entry, thing.parts)),
  ];
}

/** The last deed that can be taken back: of a bag that is open. */
export function lastDeed({ bags, issued }: PackState): { no: number; item: string; kind: Entry['kind'] } | null {
  if (issued !== null) return null;
  const all = bags
    .filter(({ closed }) => closed === null)
    .flatMap(({ lines }) =>
      lines.flatMap(({ line, entries }) => entries.map((entry) => ({ ...entry, item: line.item }))),
    );
  return all.reduce<(typeof all)[number] | null>((last, one) => (last === null || one.no > last.no ? one : last), null);
}

export const secondWords: Record<PackedBag['second'], string> = {
  none: 'not counted again yet',
  some: 'counted again in part',
  differs: 'counted again, and differs',
  agrees: 'counted again, the same',
};
