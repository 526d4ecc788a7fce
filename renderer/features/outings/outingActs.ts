import type { TaskOuting, TaskStep } from '../../../shared-types/records/task.ts';
import type { Act, Proposal } from '../../store/store.ts';
import { positionsFor } from '../task/order.ts';

/** The outings of one task in order, and its steps. */
export interface OutingRows {
  outings: readonly TaskOuting[];
  steps: readonly TaskStep[];
}

/** Old name of a role to its new one. */
export type RoleNames = ReadonlyMap<string, string>;

const putOuting = (outing: TaskOuting): Proposal => ({ table: 'outings', put: outing });
const putStep = (step: TaskStep): Proposal => ({ table: 'steps', put: step });

export function outingCalled({ code, name }: Pick<TaskOuting, 'code' | 'name'>): string {
  return name === undefined ? `outing ${code}` : `outing “${name.slice(0, 80)}”`;
}

/** Adds an outing after the others. */
export function addOuting(rows: OutingRows, outing: TaskOuting): Act {
  const added = { ...outing, position: 1e15 };
  const positions = positionsFor([[...rows.outings, added]], new Set([added.id]));
  const placed = [...rows.outings, added].flatMap((row) => {
    const position = positions.get(row.id);
    return position === undefined ? [] : [putOuting({ ...row, position })];
  });
  return { action: 'add-outing', title: `Add ${outingCalled(outing)}`, proposals: placed };
}

/** Keeps an outing changed. Its steps follow its code and the names of its roles. */
export function editOuting(rows: OutingRows, before: TaskOuting, outing: TaskOuting, roles: RoleNames): Act {
  const followed = rows.steps.flatMap((step): Proposal[] => {
    if (step.outing !== before.code) return [];
    const role = roles.get(step.role) ?? step.role;
    const inHands = step.fastenerMoves?.some(({ from, to }) => roles.has(from) || (to !== undefined && roles.has(to)));
    if (outing.code === before.code && role === step.role && inHands !== true) return [];
    const moves = step.fastenerMoves?.map(({ from, to, ...rest }) => ({
      ...rest,
      from: roles.get(from) ?? from,
      ...(to === undefined ? {} : { to: roles.get(to) ?? to }),
    }));
    return [putStep({ ...step, outing: outing.code, role, ...(moves === undefined ? {} : { fastenerMoves: moves }) })];
  });
  return {
    action: 'edit-outing',
    title: `Edit ${outingCalled(before)}`,
    proposals: [putOuting(outing), ...followed],
  };
}

/** Steps that go out on an outing: while there are any it stays. */
export function stepsOn(rows: OutingRows, { code }: Pick<TaskOuting, 'code'>): readonly TaskStep[] {
  return rows.steps.filter(({ outing }) => outing === code);
}

export function removeOuting(outing: TaskOuting): Act {
  const { id, rev } = outing;
  return {
    action: 'remove-outing',
    title: `Remove ${outingCalled(outing)}`,
    proposals: [{ table: 'outings', remove: { id, rev } }],
  };
}

/** Before or after its neighbour; null where there is none. */
export function moveOuting({ outings }: OutingRows, outing: TaskOuting, by: -1 | 1): Act | null {
  const at = outings.findIndex(({ id }) => id === outing.id);
  const neighbour = outings[at + by];
  if (at < 0 || neighbour === undefined) return null;
  const wanted = outings.filter(({ id }) => id !== outing.id);
  wanted.splice(at + by, 0, outing);
  const positions = positionsFor([wanted], new Set([outing.id]));
  const placed = wanted.flatMap((row) => {
    const position = positions.get(row.id);
    return position === undefined ? [] : [putOuting({ ...row, position })];
  });
  const title = `Move ${outingCalled(outing)} ${by === 1 ? 'down' : 'up'}`;
  return { action: 'move-outing', title, proposals: placed };
}
