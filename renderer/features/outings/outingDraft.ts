import type { TaskOuting, TaskStep } from '../../../shared-types/records/task.ts';
import type { Draft } from '../../components/RecordForm/draft.ts';
import { faultsOf } from '../../engine/records/faultsOf.ts';
import type { Fault } from '../../engine/records/faultsOf.ts';
import { countOf } from '../steps/words.ts';
import type { OutingRows, RoleNames } from './outingActs.ts';
import { stepsOn } from './outingActs.ts';

/** A role's line in the form; `was` is its name as it is kept, so that a new name is no new role. */
export interface RoleLine {
  name: string;
  was?: string;
}

/** An outing's form holds its roles with the names they had. */
export function draftOfOuting({ roles, ...rest }: TaskOuting): Draft {
  return { ...rest, roleLines: roles.map((name): RoleLine => ({ name, was: name })) };
}

export function roleLinesOf(draft: Draft): readonly RoleLine[] {
  return Array.isArray(draft['roleLines']) ? (draft['roleLines'] as RoleLine[]) : [];
}

export function bagsOf(draft: Draft): readonly string[] {
  return Array.isArray(draft['bags']) ? (draft['bags'] as string[]) : [];
}

/** The draft as it is kept: lines that say nothing are none. */
export function outingOf(draft: Draft): TaskOuting {
  const { roleLines: _lines, ...rest } = draft;
  const roles = roleLinesOf(draft).map(({ name }) => name.trim());
  const bags = bagsOf(draft).map((code) => code.trim());
  const kept = { ...(rest as unknown as TaskOuting), roles: roles.filter(Boolean), bags: bags.filter(Boolean) };
  return withRoleNames(kept, renamedRoles(draft));
}

/** Who may swap and who carries how much follow the names of the roles; what is said of a role that is gone goes with it. */
function withRoleNames(outing: TaskOuting, names: RoleNames): TaskOuting {
  const { swaps, carryMax } = outing;
  const named = (role: string): string => names.get(role) ?? role;
  const pairs = swaps?.map(([one, other]): [string, string] => [named(one), named(other)]);
  const loads = carryMax?.map(({ role, mass }) => ({ role: named(role), mass }));
  return {
    ...outing,
    ...(pairs === undefined
      ? {}
      : { swaps: pairs.filter((pair) => pair.every((role) => outing.roles.includes(role))) }),
    ...(loads === undefined ? {} : { carryMax: loads.filter(({ role }) => outing.roles.includes(role)) }),
  };
}

export function renamedRoles(draft: Draft): RoleNames {
  return new Map(
    roleLinesOf(draft).flatMap(({ name, was }): [string, string][] =>
      was === undefined || name.trim() === '' || name.trim() === was ? [] : [[was, name.trim()]],
    ),
  );
}

/** Why a role has to stay: its steps; null where it may go. */
export function roleHindered(role: string | undefined, onOuting: readonly TaskStep[]): string | null {
  const own = onOuting.filter((step) => step.role === role);
  return role === undefined || own.length === 0 ? null : `does ${countOf(own.length, 'step')} of this outing`;
}

/** What keeps an outing from being kept. */
export function outingChecks(draft: Draft, rows: OutingRows, before: TaskOuting | null): readonly Fault[] {
  const outing = outingOf(draft);
  const faults = faultsOf('outings', outing);
  if (rows.outings.some(({ id, code }) => id !== outing.id && code === outing.code))
    faults.push({ path: 'code', message: `"${outing.code}" is another outing’s of this task: choose another one.` });
  const lines = roleLinesOf(draft);
  const names = lines.map(({ name }) => name.trim());
  const onOuting = before === null ? [] : stepsOn(rows, before);
  for (const [index, { was }] of lines.entries()) {
    const name = names[index] ?? '';
    const hindered = roleHindered(was, onOuting);
    if (name === '' && hindered !== null)
      faults.push({ path: `roleLines.${index}`, message: `needs its name: "${was}" ${hindered}.` });
    if (name !== '' && names.indexOf(name) < index)
      faults.push({ path: `roleLines.${index}`, message: `"${name}" stands there twice.` });
  }
  return faults;
}
