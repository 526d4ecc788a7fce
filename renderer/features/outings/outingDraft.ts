import type { TaskOuting, TaskStep } from '../../../shared-types/records/task.ts';
import type { Draft } from '../../components/RecordForm/draft.ts';
import { faultsOf } from '../../engine/records/faultsOf.ts';
import type { Fault } from '../../engine/records/faultsOf.ts';
import { countOf } from '../steps/words.ts';
import type { OutingRows, RoleNames } from './outingActs.ts';
import { stepsOn } from './outingActs.ts';
import { atItsLine, halfSaid, roleDraft, roleLinesOf, rolesOf } from './roleLines.ts';

/** An outing's form holds its roles with the names they had, and with each what is said of it. */
export function draftOfOuting({ roles, carryMax, swaps, ...rest }: TaskOuting): Draft {
  return {
    ...rest,
    ...roleDraft({
      roles,
      ...(carryMax === undefined ? {} : { carryMax }),
      ...(swaps === undefined ? {} : { swaps }),
    }),
  };
}

export function bagsOf(draft: Draft): readonly string[] {
  return Array.isArray(draft['bags']) ? (draft['bags'] as string[]) : [];
}

/** The draft as it is kept: lines that say nothing are none. */
export function outingOf(draft: Draft): TaskOuting {
  const { roleLines: _lines, pairLines: _pairs, ...rest } = draft;
  const bags = bagsOf(draft).map((code) => code.trim());
  return { ...(rest as unknown as TaskOuting), ...rolesOf(draft), bags: bags.filter(Boolean) };
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
  const faults = [...halfSaid(draft), ...faultsOf('outings', outing).map((fault) => atItsLine(fault, draft))];
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
