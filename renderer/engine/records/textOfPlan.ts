import type { Plan } from '../../../shared-types/plan.ts';
import { byText } from './inOrder.ts';

/** What a reader looks for first stands first; fields not named here follow by their names. */
const fieldOrder = [
  'id',
  'name',
  'notes',
  'task',
  'catalog',
  'places',
  'outings',
  'steps',
  'rangeShareMin',
  'fasteners',
  'sockets',
  'extensions',
  'drivers',
  'torqueTools',
  'carryGear',
  'bags',
  'kind',
  'thread',
  'head',
  'form',
  'outing',
  'role',
  'slot',
  'action',
  'fastener',
  'count',
  'callout',
  'min',
  'max',
];
const rank = new Map(fieldOrder.map((field, index) => [field, index]));

/**
 * A plan as one JSON text: the same for equal plans, in whatever order their fields were given.
 *
 * @param options.forPeople - with lines and indents, as plan files are saved; without, it is what is hashed
 */
export function textOfPlan(plan: Plan, options: { forPeople: boolean } = { forPeople: false }): string {
  const text = JSON.stringify(ordered(plan), null, options.forPeople ? 2 : 0);
  return options.forPeople ? `${text}\n` : text;
}

/** Any part of a plan as one JSON text, the same for equal parts. */
export function textOfValue(value: unknown): string {
  return JSON.stringify(ordered(value));
}

function ordered(value: unknown): unknown {
  if (Array.isArray(value)) return value.map(ordered);
  if (typeof value !== 'object' || value === null) return value;
  const entries = Object.entries(value).toSorted(([a], [b]) => rankOf(a) - rankOf(b) || byText(a, b));
  return Object.fromEntries(entries.map(([field, inner]) => [field, ordered(inner)]));
}

function rankOf(field: string): number {
  return rank.get(field) ?? fieldOrder.length;
}
