import type { TaskOuting } from '../../../shared-types/records/task.ts';
import type { Draft } from '../../components/RecordForm/draft.ts';
import type { Fault } from '../../engine/records/faultsOf.ts';

/** A role's line in the form; `was` is its name as it is kept, so that a new name is no new role. */
export interface RoleLine {
  name: string;
  was?: string;
  /** The most it carries, as typed. */
  carries?: string;
}

/** A pair of roles that may take each other's steps, each by its line; null while none is chosen. */
export interface PairLine {
  one: number | null;
  other: number | null;
}

/** What the form holds of an outing's roles, each with the name it had. */
export function roleDraft({ roles, carryMax, swaps }: Pick<TaskOuting, 'roles' | 'carryMax' | 'swaps'>): Draft {
  const roleLines = roles.map((name): RoleLine => {
    const carries = carryMax?.find(({ role }) => role === name)?.mass;
    return { name, was: name, ...(carries === undefined ? {} : { carries }) };
  });
  const lineOf = (role: string): number | null => (roles.includes(role) ? roles.indexOf(role) : null);
  const pairLines = swaps?.map(([one, other]): PairLine => ({ one: lineOf(one), other: lineOf(other) }));
  return { roleLines, ...(pairLines === undefined ? {} : { pairLines }) };
}

export function roleLinesOf(draft: Draft): readonly RoleLine[] {
  return Array.isArray(draft['roleLines']) ? (draft['roleLines'] as RoleLine[]) : [];
}

/** Null where any two roles may take each other's steps. */
export function pairLinesOf(draft: Draft): readonly PairLine[] | null {
  return Array.isArray(draft['pairLines']) ? (draft['pairLines'] as PairLine[]) : null;
}

/** The pairs without a role's line: its own go with it, and what stands behind it moves up. */
export function pairsWithout(pairs: readonly PairLine[], line: number): PairLine[] {
  const movedUp = (at: number | null): number | null => (at !== null && at > line ? at - 1 : at);
  return pairs
    .filter(({ one, other }) => one !== line && other !== line)
    .map(({ one, other }) => ({ one: movedUp(one), other: movedUp(other) }));
}

const nameAt = (lines: readonly RoleLine[], at: number | null): string =>
  at === null ? '' : (lines[at]?.name.trim() ?? '');

/** The roles as they are kept: lines that say nothing are none, and what is said of them goes with them. */
export function rolesOf(draft: Draft): Pick<TaskOuting, 'roles' | 'carryMax' | 'swaps'> {
  const lines = roleLinesOf(draft);
  const carryMax = lines.flatMap(({ name, carries = '' }) =>
    name.trim() === '' || carries.trim() === '' ? [] : [{ role: name.trim(), mass: carries }],
  );
  const swaps = pairLinesOf(draft)
    ?.map(({ one, other }): [string, string] => [nameAt(lines, one), nameAt(lines, other)])
    .filter((pair) => pair.every((name) => name !== ''));
  return {
    roles: lines.map(({ name }) => name.trim()).filter((name) => name !== ''),
    ...(carryMax.length === 0 ? {} : { carryMax }),
    ...(swaps === undefined ? {} : { swaps }),
  };
}

/** A fault of the kept roles at the line where it is typed; any other as it is. */
export function atItsLine(fault: Fault, draft: Draft): Fault {
  const lines = roleLinesOf(draft);
  const [, list, index] = /^(carryMax|swaps)\[(\d+)\]/.exec(fault.path) ?? [];
  if (list === 'carryMax') {
    const carrying = lines.flatMap(({ name, carries = '' }, at) =>
      name.trim() === '' || carries.trim() === '' ? [] : [at],
    );
    return { ...fault, path: `roleLines.${carrying[Number(index)]}.carries` };
  }
  if (list === 'swaps') {
    const whole = (pairLinesOf(draft) ?? []).flatMap(({ one, other }, at) =>
      nameAt(lines, one) === '' || nameAt(lines, other) === '' ? [] : [at],
    );
    return { ...fault, path: `pairLines.${whole[Number(index)]}.other` };
  }
  return fault;
}

/** What is half said: a load without its role, a pair without one of its two. */
export function halfSaid(draft: Draft): Fault[] {
  const lines = roleLinesOf(draft);
  const loads = lines.flatMap(({ name, carries = '' }, at): Fault[] =>
    name.trim() === '' && carries.trim() !== ''
      ? [{ path: `roleLines.${at}`, message: `is missing: "${carries.trim()}" is what it carries at most.` }]
      : [],
  );
  const pairs = (pairLinesOf(draft) ?? []).flatMap((pair, at) =>
    (['one', 'other'] as const).flatMap((end): Fault[] =>
      nameAt(lines, pair[end]) === ''
        ? [{ path: `pairLines.${at}.${end}`, message: 'is missing: choose a role, or take the pair out.' }]
        : [],
    ),
  );
  return [...loads, ...pairs];
}
