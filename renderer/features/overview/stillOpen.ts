import type { PlanProblem } from '../../../shared-types/bag.ts';
import type { Item } from '../../../shared-types/records/item.ts';
import type { MarkState } from '../../components/StateMark/StateMark.tsx';
import { planProblems } from '../../engine/outing/planProblems.ts';
import type { ResolvedPlan } from '../../engine/plan/resolved.ts';
import type { Missing } from '../../engine/records/readableTask.ts';
import { otherWaysOf, otherWayText } from '../../engine/stack/otherWay.ts';
import { showNumber } from '../../engine/units/index.ts';
import type { Place } from '../../store/place.ts';
import type { KeptResult } from '../../store/session.ts';
import { stateOf } from '../bag/BagHeading.tsx';
import { calibrationState } from '../catalog/calibrationState.ts';
import type { Judgements } from '../steps/judging.ts';
import { countOf, itemName, placeText } from '../steps/words.ts';

/** One thing that keeps the job from being done, with the place where it is mended. */
export interface OpenPoint {
  id: string;
  mark: MarkState;
  /** The state's word where the mark's own does not say it. */
  word: string | undefined;
  what: string;
  detail: string;
  to: Place;
  /** Name of the place it leads to. */
  toName: string;
}

export interface Situation {
  plan: ResolvedPlan;
  missing: readonly Missing[];
  judgements: Judgements;
  result: KeptResult | null;
  former: KeptResult | null;
  /** Items of the task's shelves. */
  items: readonly Item[];
  /** ISO 8601 day. */
  today: string;
}

/** What is still open, in the order of the job line. */
export function stillOpen(situation: Situation): OpenPoint[] {
  return [
    ...incomplete(situation),
    ...unreached(situation),
    ...problems(situation),
    ...bags(situation),
    ...otherWays(situation),
    ...calibrations(situation),
  ];
}

function incomplete({ missing, items }: Situation): OpenPoint[] {
  return missing.map((of, index) => {
    const { table, code, reason } = of;
    return {
      id: `missing ${table} ${code} ${index}`,
      mark: 'no-stack' as const,
      word: 'Not complete',
      what: table === 'steps' ? `Step ${code}` : code,
      detail: reason,
      ...placeOf(of, items),
    };
  });
}

function placeOf({ table, id, code }: Missing, items: readonly Item[]): Pick<OpenPoint, 'to' | 'toName'> {
  if (table === 'steps') return { to: { at: 'steps', step: code }, toName: 'Steps' };
  if (table === 'outings') return { to: { at: 'outings', outing: code }, toName: 'Outings' };
  if (table === 'tasks') return { to: { at: 'front' }, toName: 'Front sheet' };
  const item = items.find((one) => one.id === id);
  return {
    to: item === undefined ? { at: 'catalog' } : { at: 'catalog', shelf: item.shelf, item: id },
    toName: 'Catalog',
  };
}

function unreached({ plan, judgements }: Situation): OpenPoint[] {
  return plan.steps.flatMap((step, index): OpenPoint[] => {
    const judged = judgements.get(step.id);
    if (judged?.state !== 'not-reached') return [];
    const [closest] = judged.closest;
    const fails = closest?.fails.map(({ have, need }) => `${have}, needed ${need}`).join('; ');
    return [
      {
        id: `reach ${step.id}`,
        mark: 'not-reached',
        word: undefined,
        what: `Step ${index + 1}, ${step.name}`,
        detail: fails === undefined || fails === '' ? 'no stack of the stock does it' : `closest: ${fails}`,
        to: { at: 'steps', step: step.id },
        toName: 'Steps',
      },
    ];
  });
}

function problemDetail(plan: ResolvedPlan, { rule, id, quantity, place }: PlanProblem): [string, string] {
  if (rule === 'over-time') {
    const name = plan.outings.find((outing) => outing.id === id)?.name ?? id;
    return [name, `${showNumber(quantity)} min longer than it may last`];
  }
  const where = place === undefined ? '' : ` at ${placeText(plan, place)}`;
  return [
    `${quantity} × ${itemName(plan, id)}${where}`,
    rule === 'not-there' ? 'looked for, and nobody left it there' : 'nobody brings it home',
  ];
}

function problems({ plan }: Situation): OpenPoint[] {
  return planProblems(plan).map((problem, index) => {
    const [what, detail] = problemDetail(plan, problem);
    return {
      id: `problem ${index}`,
      mark: problem.rule,
      word: undefined,
      what,
      detail,
      to: { at: 'outings', outing: problem.outing },
      toName: 'Outings',
    };
  });
}

/** For each outing whether there is a bag, and then that it is still to be packed: nothing is packed by planning. */
function bags({ plan, result, former }: Situation): OpenPoint[] {
  if (plan.steps.length === 0) return [];
  const open = (
    id: string,
    rest: Pick<OpenPoint, 'mark' | 'word' | 'what' | 'detail'>,
    outing?: string,
  ): OpenPoint => ({
    id,
    ...rest,
    to: outing === undefined ? { at: 'bag' } : { at: 'bag', outing },
    toName: 'Bag',
  });
  if (result === null) {
    const detail = former === null ? 'no bag has been planned' : 'the planned bag is of an earlier state of this task';
    return [open('bag', { mark: 'not-proved', word: 'Not planned', what: 'Bag', detail })];
  }
  const state = stateOf(result.result);
  if (state === 'infeasible') {
    const faults = countOf(result.result.infeasible.length, 'fault');
    return [open('bag', { mark: 'infeasible', word: undefined, what: 'Bag', detail: `no bag does it: ${faults}` })];
  }
  return result.result.outings.map(({ id, items }) => {
    const name = plan.outings.find((outing) => outing.id === id)?.name ?? id;
    const pieces = items.reduce((sum, { quantity }) => sum + quantity, 0);
    const detail = `${countOf(pieces, 'piece')} planned${state === 'not-proved' ? ', not proved least' : ''}`;
    return open(`pack ${id}`, { mark: 'to-pack', word: undefined, what: name, detail }, id);
  });
}

/** Steps whose planned torque tool measures the other way than their thread tightens. */
function otherWays({ plan, result }: Situation): OpenPoint[] {
  const found = (result?.result.outings ?? []).flatMap((outing) => otherWaysOf(plan, outing));
  return found.flatMap(({ step, way }): OpenPoint[] => {
    if (way.measures === null) return [];
    const what = `Step ${plan.steps.indexOf(step) + 1}, ${step.name}`;
    const to: Place = { at: 'steps', step: step.id };
    return [
      {
        id: `way ${step.id}`,
        mark: 'other-way',
        word: undefined,
        what,
        detail: otherWayText(way),
        to,
        toName: 'Steps',
      },
    ];
  });
}

/** Torque tools of the task's shelves whose calibration has run out, or does within a month. */
function calibrations({ items, today }: Situation): OpenPoint[] {
  return items.flatMap((item): OpenPoint[] => {
    if (item.kind !== 'torque-tool' || item.retired || item.calibrationDue === undefined) return [];
    const state = calibrationState(item, today);
    if (state === 'in-date' || state === 'unknown') return [];
    return [
      {
        id: `calibration ${item.id}`,
        mark: state === 'overdue' ? 'nonconforming-over' : 'indeterminate',
        word: state === 'overdue' ? 'Calibration overdue' : 'Calibration due',
        what: [item.code, item.name].filter((text) => text !== undefined).join(' '),
        detail: `due ${item.calibrationDue}`,
        to: { at: 'catalog', shelf: item.shelf, item: item.id },
        toName: 'Catalog',
      },
    ];
  });
}
