import type { CheckName } from '../../../shared-types/bag.ts';
import type { ResolvedFastener, ResolvedPlan } from '../../engine/plan/resolved.ts';
import { shownHead } from '../../engine/stack/shown.ts';

/** Each check as what the stack does. */
export const checkWords: Record<CheckName, string> = {
  drive: 'Joins',
  opening: 'Goes on',
  reach: 'Reaches',
  clearance: 'Passes',
  swing: 'Swings',
  strength: 'Holds',
  accuracy: 'Reads',
  universal: 'Bends',
  protrusion: 'Takes the stud',
  hold: 'Held against',
  stock: 'On hand',
  bag: 'Fits the bag',
};

const kindWords = {
  driver: 'driver',
  torqueTool: 'torque tool',
  extension: 'extension',
  socket: 'socket',
  gear: 'gear',
} as const;

/** An item as a person calls it: its name, or what it is with its id. */
export function itemName(plan: ResolvedPlan, id: string): string {
  const item = plan.carried.get(id);
  if (item === undefined) return id;
  return item.name === id ? `${kindWords[item.kind]} ${id}` : item.name;
}

/** "3/8-24 UNF-3A, 9/16 in hex head". */
export function fastenerText({ thread, headForm, acrossFlats }: ResolvedFastener): string {
  return `${thread}, ${shownHead(headForm, acrossFlats)}`;
}

export function placeText(plan: ResolvedPlan, id: string): string {
  if (id === 'bag') return 'the bag';
  return plan.source.places?.find((place) => place.id === id)?.name ?? id;
}

const listedMost = 12;

/** Step numbers where there is little room: of a long list the first twelve, unless its runs say the whole as shortly. */
export function fewNumbersText(numbers: number[]): string {
  const sorted = [...new Set(numbers)].toSorted((a, b) => a - b);
  const whole = numbersText(sorted);
  if (sorted.length <= listedMost) return whole;
  const first = `${numbersText(sorted.slice(0, listedMost))} and ${sorted.length - listedMost} more`;
  return whole.length <= first.length ? whole : first;
}

export function countOf(count: number, one: string, many = `${one}s`): string {
  return `${count} ${count === 1 ? one : many}`;
}

/** Step numbers as a person writes them: "1, 5, 9–11". */
export function numbersText(numbers: number[]): string {
  const sorted = [...new Set(numbers)].toSorted((a, b) => a - b);
  const runs: [number, number][] = [];
  for (const number of sorted) {
    const last = runs.at(-1);
    if (last !== undefined && last[1] === number - 1) last[1] = number;
    else runs.push([number, number]);
  }
  return runs
    .map(([from, to]) => (from === to ? `${from}` : to === from + 1 ? `${from}, ${to}` : `${from}–${to}`))
    .join(', ');
}

/** Words of a reason as a sentence: with its end, if it has none. */
export function sentence(words: string): string {
  return /[.!?]$/.test(words) ? words : `${words}.`;
}
