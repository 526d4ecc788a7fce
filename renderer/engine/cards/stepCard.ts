import type { BagOuting, BagResult, BagStep } from '../../../shared-types/bag.ts';
import type { ResolvedPlan, ResolvedStep } from '../plan/resolved.ts';
import { turnSeen } from '../pattern/index.ts';
import { otherWayOf, otherWayText } from '../stack/otherWay.ts';
import { stackParts } from '../stack/stackTask.ts';
import { readThread } from '../thread/index.ts';
import type { UnitsShown } from '../units/index.ts';
import type { CardBoxes, CardLine, CardStep, CardTurn } from './card.ts';
import { bagsOf, gearLines, moveLines } from './moving.ts';
import { noticesOf } from './notices.ts';
import { positionsOf } from './stepFacts.ts';
import type { StepFacts } from './stepFacts.ts';
import { loosenLines, tightenLines } from './turnLines.ts';
import type { TurnedLines } from './turnLines.ts';
import { countText, itemText } from './words.ts';

export interface CardSource {
  plan: ResolvedPlan;
  /** The answer to this very state of the plan. */
  result: BagResult;
  facts: ReadonlyMap<string, StepFacts>;
  units: UnitsShown;
}

const closestMost = 3;

/** What a step's card says, before it is laid on pages. */
export function stepCard(source: CardSource, step: ResolvedStep, around: { taken: boolean; back: boolean }): CardStep {
  const { plan, result, facts: allFacts } = source;
  const facts = allFacts.get(step.id);
  const outing = result.outings.find(({ id }) => id === step.outing);
  const answer = outing?.steps.find(({ id }) => id === step.id);
  const written = plan.source.steps.find(({ id }) => id === step.id);
  const where = whereOf(source, step, facts);
  const base = {
    id: step.id,
    number: plan.steps.indexOf(step) + 1,
    name: step.name,
    onlyIf: onlyIf(plan, step, facts),
    minutes: step.minutes,
    notices: noticesOf(written?.cautions ?? [], {
      notUsed: notUsed(step, facts, where),
      watchOuts: [...(written?.watchOuts ?? []), ...(facts?.carried ?? [])],
    }),
    stack: [],
    hold: null,
    turn: null,
    site: JSON.stringify([step.fastener?.id, step.access, step.hold]),
    boxes: null,
    closest: [],
    notes: notesOf(written),
  };
  const gear = gearLines(plan, step, outing);
  const moves = moveLines(plan, step);
  if (step.action === 'use' || step.fastener === null) {
    const lines = [...gear, doLine(step, placeOf(where, facts), written?.count, facts), ...moves];
    return { ...base, state: 'by-hand', lines };
  }
  const parts = answer === undefined ? null : stackParts(plan, answer.stack);
  if (answer === undefined || parts === null) return { ...base, ...notPlanned(source, step, where) };
  const way = otherWayOf(plan, step, answer.stack);
  if (way !== null && way.measures !== null)
    return { ...base, ...notTurned(step, where, `${otherWayText(way)}. Plan again with another torque tool`) };
  const count = step.count ?? facts?.at?.count ?? 1;
  const turn = turnOf(step, facts);
  const x = {
    plan,
    step,
    number: base.number,
    facts,
    answer,
    parts,
    turn,
    where: placeOf(where, facts),
    count,
    units: source.units,
  };
  const turned = step.action === 'tighten' ? tightenLines(x) : loosenLines(x);
  const lines = [
    ...(around.taken ? [] : [takeLine(plan, outing, answer)]),
    ...holdLines(plan, step, outing, answer),
    ...gear,
    ...turned.lines,
    ...moves,
    ...(around.back ? [backLine(plan, outing, answer)] : []),
  ];
  return {
    ...base,
    state: 'planned',
    lines,
    stack: answer.stack,
    hold: answer.hold,
    turn,
    boxes: boxesOf(turned, facts, count),
    notes: [
      ...(way === null ? [] : [`${otherWayText(way)}: see that it does before it is set.`]),
      ...turned.notes,
      ...base.notes,
    ],
  };
}

/** Its interface; else the fastener by its name, or the site. */
function whereOf({ plan }: CardSource, step: ResolvedStep, facts: StepFacts | undefined): string {
  return facts?.where ?? (step.fastener === null ? (plan.source.task?.site ?? 'at the work site') : step.fastener.name);
}

function placeOf(where: string, facts: StepFacts | undefined): string {
  return facts?.positions == null ? where : `${where}, positions ${facts.positions}`;
}

/** An order of tightening that cannot be followed is said before the step; no other is put in its place. */
function notUsed(step: ResolvedStep, facts: StepFacts | undefined, where: string): string[] {
  if (step.action === 'use') return [];
  const { orderFault } = positionsOf(facts, step.count ?? facts?.at?.count ?? 1);
  return orderFault === null
    ? []
    : [
        `The order of tightening kept for ${where} ${orderFault}. Mend it in Sites, or follow the procedure’s own order.`,
      ];
}

function onlyIf(plan: ResolvedPlan, step: ResolvedStep, facts: StepFacts | undefined): string | null {
  if (!step.contingency) return null;
  const { ifFails } = facts ?? {};
  const number = plan.steps.findIndex(({ id }) => id === ifFails?.step) + 1;
  if (ifFails === undefined || number === 0) return 'only if it fails';
  return `only if step ${number} ${ifFails.how === 'other' ? 'is in trouble' : `is ${ifFails.how}`}`;
}

function notesOf(
  written: { calloutSource?: string | undefined; callout?: unknown; notes?: string | undefined } | undefined,
): string[] {
  if (written === undefined) return [];
  const source =
    written.callout === undefined ? [] : [`Callout: ${written.calloutSource ?? 'the plan names no source'}`];
  return [...source, ...(written.notes === undefined || written.notes.trim() === '' ? [] : [written.notes])];
}

/** By hand or with gear: the state that its interface has when it is done, or that the step is finished. */
function doLine(step: ResolvedStep, where: string, count: number | undefined, facts: StepFacts | undefined): CardLine {
  const pieces = count ?? step.gear.reduce((sum, { quantity }) => sum + quantity, 0);
  const { desired = null, quarterTurns = null } = facts?.at ?? {};
  return {
    kind: 'do',
    reach: `${step.name}: ${desired ?? 'finished'}`,
    where,
    count: pieces === 0 ? 'no loose piece' : countText(pieces, 'piece'),
    value: {
      kind: 'words',
      text: quarterTurns === null ? 'by hand' : countText(quarterTurns, 'quarter turn'),
    },
  };
}

function takeLine(plan: ResolvedPlan, outing: BagOuting | undefined, { stack }: BagStep): CardLine {
  return {
    kind: 'take',
    reach: `Joined, tool to head: ${stack.join(' + ')}`,
    where: `from ${bagsOf(plan, outing, stack)}`,
    count: countText(stack.length, 'piece'),
    value: { kind: 'words', text: 'as drawn' },
  };
}

function backLine(plan: ResolvedPlan, outing: BagOuting | undefined, { stack, hold }: BagStep): CardLine {
  const all = [...stack, ...(hold ?? [])];
  return {
    kind: 'back',
    reach: `Back in the bag: ${all.join(', ')}`,
    where: `to ${bagsOf(plan, outing, all)}`,
    count: countText(all.length, 'piece'),
    value: { kind: 'words', text: `${all.length} back` },
  };
}

function holdLines(
  plan: ResolvedPlan,
  step: ResolvedStep,
  outing: BagOuting | undefined,
  { hold }: BagStep,
): CardLine[] {
  if (hold === null || step.hold === null) return [];
  return [
    {
      kind: 'hold',
      reach: `${step.hold.fastener.name} held against turning with ${hold.map((id) => itemText(plan, id)).join(' + ')}`,
      where: `from ${bagsOf(plan, outing, hold)}`,
      count: countText(hold.length, 'piece'),
      value: { kind: 'words', text: 'no turn' },
    },
  ];
}

function notPlanned(
  { result }: CardSource,
  step: ResolvedStep,
  where: string,
): Pick<CardStep, 'state' | 'lines' | 'closest'> {
  const faults = result.infeasible.filter((fault) => fault.step === step.id);
  const [fault] = faults;
  const none =
    fault === undefined
      ? 'No bag does this outing: nothing is turned'
      : `Not reached, nothing is turned: ${fault.reason}`;
  return {
    state: fault === undefined ? 'no-bag' : 'not-reached',
    lines: [noSetting(step, where, none)],
    closest: faults.flatMap(({ closest }) => closest).slice(0, closestMost),
  };
}

/** What its stack cannot do gets no setting, whatever the planner's rules say of it. */
function notTurned(step: ResolvedStep, where: string, why: string): Pick<CardStep, 'state' | 'lines'> {
  return { state: 'other-way', lines: [noSetting(step, where, `Nothing is turned: ${why}`)] };
}

function noSetting(step: ResolvedStep, where: string, reach: string): CardLine {
  return {
    kind: 'do',
    reach,
    where,
    count: countText(step.count ?? 1, 'piece'),
    value: { kind: 'words', text: 'no setting' },
  };
}

function turnOf(step: ResolvedStep, facts: StepFacts | undefined): CardTurn {
  const hand = step.fastener === null ? 'right' : readThread(step.fastener.thread).hand;
  const mirrored = facts?.at?.mirrored ?? false;
  return {
    turn: turnSeen({ hand, tightens: step.action === 'tighten', mirrored }),
    because: [`${hand}-hand thread`, ...(mirrored ? ['seen mirrored, from behind'] : [])],
  };
}

function boxesOf({ columns }: TurnedLines, facts: StepFacts | undefined, count: number): CardBoxes | null {
  return columns.length === 0 ? null : { ...positionsOf(facts, count), columns };
}
