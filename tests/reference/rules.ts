/**
 * The stacks and holds of a step, from the rules of command `bag` alone: one small function for each rule, and a plain
 * enumeration of everything the catalog can be put together to. Nothing here comes from the engine.
 *
 * Readings where the rules leave room:
 * - rule 4: a part that begins exactly at `depth` does not begin before it; without `access` or at depth 0 no part does;
 * - rule 6: margins equal within 1e-9 of the aim are a tie, and the lower setting wins;
 * - rule 8: a stack that needs more copies of a part than are on hand is no possible stack;
 * - rule 12: the hold's demand is that of the step it serves, running torque included where rule 5 adds it.
 */
import type { Plan, PlanStep } from '../../shared-types/plan.ts';
import type { BreakName } from './breaks.ts';
import { atLeast, atMost, lengthMm, torqueNm } from './quantity.ts';
import type { Extension, Socket, Stock, Tool } from './stock.ts';

export interface Stack {
  tool: Tool;
  extensions: Extension[];
  socket: Socket;
}

/** What one stack has to do: the step's own work, or its hold. */
export interface Job {
  work: 'tighten' | 'loosen' | 'hold';
  head: Plan['catalog']['fasteners'][number]['head'];
  depthMm: number;
  clearDiameterMm: number | null;
  /** How far in each stretch of the hole goes, and how wide it is; below the last it is `clearDiameterMm`. */
  profile: { toMm: number; clearMm: number }[];
  swingDeg: number | null;
  handleRadiusMm: number | null;
  protrusionMm: number | null;
  demandNm: number;
  aimNm: { min: number; max: number } | null;
  rangeShareMin: number;
}

export type StackRule = (stack: Stack, job: Job, broken?: BreakName) => boolean;

export const stackIds = (stack: Stack): string[] => [
  stack.tool.id,
  ...stack.extensions.map((part) => part.id),
  stack.socket.id,
];

/** The parts that ids name, from the tool to the socket; null where they are no such string. */
export function stackFromIds(stock: Stock, ids: readonly string[]): Stack | null {
  const tool = stock.tools.find((one) => one.id === ids[0]);
  const socket = stock.sockets.find((one) => one.id === ids.at(-1));
  const middle = ids.slice(1, -1).map((id) => stock.extensions.find((one) => one.id === id));
  const extensions = middle.filter((part) => part !== undefined);
  if (tool === undefined || socket === undefined || extensions.length !== middle.length) return null;
  return { tool, extensions, socket };
}

const tool: StackRule = ({ tool: turns }, { work }, broken) => {
  if (work === 'hold') return turns.family === 'driver' || broken === 'holdTool';
  if (work === 'tighten') return turns.family === 'torqueTool';
  return turns.loosens || broken === 'tool';
};

function extensionsMax(broken?: BreakName): number {
  if (broken === 'twoExtensions') return 2;
  return broken === 'fourExtensions' ? 4 : 3;
}

const extensions: StackRule = (stack, _job, broken) => stack.extensions.length <= extensionsMax(broken);

const drive: StackRule = (stack, _job, broken) => {
  if (broken === 'drive') return true;
  let male = stack.tool.drive;
  for (const part of stack.extensions) {
    if (part.driveIn !== male) return false;
    male = part.driveOut;
  }
  return stack.socket.drive === male;
};

const goesOn: Record<Job['head']['form'], Socket['form'][]> = {
  hex: ['hex6', 'hex12'],
  'heavy-hex': ['hex6', 'hex12'],
  nut: ['hex6', 'hex12'],
  'twelve-point': ['hex12'],
  'hex-socket': ['hexKey'],
  hexalobular: ['hexalobular'],
  square: ['square'],
};

const opening: StackRule = ({ socket }, { head }, broken) => {
  if (broken === 'opening') return true;
  const text = head.form === 'hexalobular' || socket.form === 'hexalobular';
  if (!goesOn[head.form].includes(socket.form) && (broken !== 'openingForm' || text)) return false;
  if (text) return socket.size === head.acrossFlats;
  return Math.abs(Number(socket.size) - lengthMm(head.acrossFlats)) <= 0.01 * (1 + 1e-9);
};

const lengthOf = (stack: Stack): number =>
  stack.extensions.reduce((sum, part) => sum + part.lengthMm, stack.socket.lengthMm);

const reach: StackRule = (stack, job, broken) => broken === 'reach' || atLeast(lengthOf(stack), job.depthMm);

/** The parts with the depth, from the mouth, that the inner end of each comes to; 0 or less is outside. */
function innerEndsMm(
  stack: Stack,
  depthMm: number,
): { outsideDiameterMm: number; innerMm: number; beginsMm: number }[] {
  let beginsMm = 0;
  return [stack.socket, ...stack.extensions.toReversed()].map(({ outsideDiameterMm, lengthMm: long }) => {
    const at = { outsideDiameterMm, beginsMm, innerMm: depthMm - beginsMm };
    beginsMm += long;
    return at;
  });
}

const clearance: StackRule = (stack, { depthMm, clearDiameterMm, profile }, broken) => {
  if (broken === 'clearance') return true;
  const known = broken === 'profile' ? [] : profile;
  return innerEndsMm(stack, depthMm).every(({ outsideDiameterMm, beginsMm, innerMm }) => {
    const isInside = !atLeast(beginsMm, depthMm) || broken === 'clearanceWhole';
    if (!isInside) return true;
    let fromMm = 0;
    for (const { toMm, clearMm } of known) {
      // On its way in it passes every stretch that begins before its inner end.
      const passes = !atMost(innerMm, fromMm) && (broken !== 'profileRest' || atMost(innerMm, toMm));
      if (passes && !atMost(outsideDiameterMm, clearMm)) return false;
      fromMm = toMm;
    }
    const comesBelow = known.length === 0 || (!atMost(innerMm, fromMm) && !atLeast(fromMm, depthMm));
    return clearDiameterMm === null || !comesBelow || atMost(outsideDiameterMm, clearDiameterMm);
  });
};

const strength: StackRule = (stack, { work, demandNm }, broken) =>
  broken === 'strength' ||
  (broken === 'holdDemand' && work === 'hold') ||
  [stack.tool.maxNm, stack.socket.ratedNm, ...stack.extensions.map((part) => part.ratedNm)].every((limitNm) =>
    broken === 'strengthTolerance' ? limitNm >= demandNm : atLeast(limitNm, demandNm),
  );

/** The setting whose applied band lies furthest inside the aim, the lower of two equal ones; null where none fits. */
export function chosenSettingNm(turns: Tool, job: Job, broken?: BreakName): number | null {
  const { aimNm } = job;
  if (aimNm === null) return null;
  let best: { setNm: number; marginNm: number } | null = null;
  for (const setNm of turns.settingsNm.toSorted((a, b) => a - b)) {
    const appliedMinNm = setNm * (1 - turns.accuracyOfReading);
    const appliedMaxNm = setNm * (1 + turns.accuracyOfReading);
    if (broken !== 'rangeShare' && !atLeast(setNm, job.rangeShareMin * turns.maxNm)) continue;
    if (!atLeast(appliedMinNm, aimNm.min) || !atMost(appliedMaxNm, aimNm.max)) continue;
    const marginNm = Math.min(appliedMinNm - aimNm.min, aimNm.max - appliedMaxNm);
    const tieNm = 1e-9 * aimNm.max * (broken === 'settingTie' ? -1 : 1);
    if (best === null || marginNm > best.marginNm + tieNm) best = { setNm, marginNm };
    if (broken === 'settingChoice') break;
  }
  return best?.setNm ?? null;
}

const accuracy: StackRule = (stack, job, broken) =>
  job.work !== 'tighten' || broken === 'accuracy' || chosenSettingNm(stack.tool, job, broken) !== null;

const universal: StackRule = (stack, { work }, broken) => {
  const joints = stack.extensions.filter((part) => part.universal).length;
  return broken === 'universal' || joints <= (work === 'tighten' && broken !== 'universalTighten' ? 0 : 1);
};

const ownStepDeg: Record<Socket['form'], number> = { hex6: 60, hexKey: 60, hexalobular: 60, hex12: 30, square: 90 };

const swing: StackRule = ({ tool: turns, socket }, { swingDeg }, broken) =>
  swingDeg === null || broken === 'swing' || atMost(turns.stepDeg ?? ownStepDeg[socket.form], swingDeg);

const handle: StackRule = ({ tool: turns }, { handleRadiusMm }, broken) =>
  handleRadiusMm === null || turns.leverMm === null || broken === 'handle' || atMost(turns.leverMm, handleRadiusMm);

const protrusion: StackRule = ({ socket }, { protrusionMm }, broken) => {
  if (protrusionMm === null || broken === 'protrusion') return true;
  if (socket.innerDepthMm === null) return broken === 'protrusionAbsent';
  return atLeast(socket.innerDepthMm, protrusionMm);
};

/** Rules 1 to 7, 13 and 14 of one stack, by the name that a break or a finding uses. */
export const stackRules = {
  tool, // 1
  extensions, // 1
  drive, // 1
  opening, // 2
  reach, // 3
  clearance, // 4
  strength, // 5
  accuracy, // 6
  universal, // 7
  swing, // 13
  handle, // 13
  protrusion, // 14
} as const satisfies Record<string, StackRule>;

export type StackRuleName = keyof typeof stackRules;

const ruleNames = Object.keys(stackRules) as StackRuleName[];

export const failedRules = (stack: Stack, job: Job, broken?: BreakName): StackRuleName[] =>
  ruleNames.filter((name) => !stackRules[name](stack, job, broken));

function jobOf(plan: Plan, step: PlanStep, work: Job['work'], broken?: BreakName): Job | null {
  const on = work === 'hold' ? step.hold : step;
  const fastener = plan.catalog.fasteners.find((one) => one.id === on?.fastener);
  if (on === undefined || fastener === undefined) return null;
  const addsRunning = step.action === 'tighten' && step.runningIncluded === false;
  const runningNm = { min: torqueNm(step.running?.min ?? '0 N·m'), max: torqueNm(step.running?.max ?? '0 N·m') };
  const calloutNm = { min: torqueNm(step.callout?.min ?? '0 N·m'), max: torqueNm(step.callout?.max ?? '0 N·m') };
  const tightenNm = calloutNm.max + (addsRunning && broken !== 'strengthRunning' ? runningNm.max : 0);
  const aimAdds = addsRunning && broken !== 'aimRunning';
  const mm = (text: string | undefined): number | null => (text === undefined ? null : lengthMm(text));
  return {
    work,
    head: fastener.head,
    depthMm: mm(on.access?.depth) ?? 0,
    clearDiameterMm: mm(on.access?.clearDiameter),
    profile: (on.access?.profile ?? []).map(({ to, clearDiameter }) => ({
      toMm: lengthMm(to),
      clearMm: lengthMm(clearDiameter),
    })),
    swingDeg: on.access?.swingDeg ?? null,
    handleRadiusMm: mm(on.access?.handleRadius),
    protrusionMm: mm(on.access?.protrusion),
    demandNm: step.action === 'tighten' ? tightenNm : torqueNm(step.demand ?? ''),
    aimNm:
      work !== 'tighten'
        ? null
        : aimAdds
          ? { min: calloutNm.min + runningNm.max, max: calloutNm.max + runningNm.min }
          : calloutNm,
    rangeShareMin: plan.rangeShareMin ?? 0,
  };
}

/** The work of a step as a job for a stack; null for a `use` step. */
export const stepJob = (plan: Plan, step: PlanStep, broken?: BreakName): Job | null =>
  step.action === 'use' ? null : jobOf(plan, step, step.action, broken);

/** What a step's second stack has to hold; null where nothing is held. */
export const holdJob = (plan: Plan, step: PlanStep, broken?: BreakName): Job | null =>
  step.hold === undefined || step.action === 'use' || broken === 'hold' ? null : jobOf(plan, step, 'hold', broken);

/** Pieces of each id that ids use together; the same id twice is two pieces (rule 8). */
export function pieceCounts(ids: readonly string[], broken?: BreakName): Map<string, number> {
  const counts = new Map<string, number>();
  for (const id of ids) counts.set(id, broken === 'samePartTwice' ? 1 : (counts.get(id) ?? 0) + 1);
  return counts;
}

export function withinStock(stock: Stock, counts: Map<string, number>, broken?: BreakName): boolean {
  if (broken === 'onHand') return true;
  return [...counts].every(([id, count]) => count <= (stock.carried.get(id)?.onHand ?? 0));
}

function extensionChains(stock: Stock, broken?: BreakName): Extension[][] {
  const chains: Extension[][] = [[]];
  let last: Extension[][] = [[]];
  for (let length = 1; length <= extensionsMax(broken); length++) {
    last = last.flatMap((chain) => stock.extensions.map((part) => [...chain, part]));
    chains.push(...last);
  }
  return chains;
}

/** All stacks of the catalog that do a job with the pieces on hand. */
export function stacksFor(stock: Stock, job: Job, broken?: BreakName): Stack[] {
  const chains = extensionChains(stock, broken);
  const found: Stack[] = [];
  for (const turns of stock.tools) {
    for (const socket of stock.sockets) {
      if (!opening({ tool: turns, extensions: [], socket }, job, broken)) continue;
      for (const chain of chains) {
        const stack = { tool: turns, extensions: chain, socket };
        if (!ruleNames.every((name) => stackRules[name](stack, job, broken))) continue;
        if (withinStock(stock, pieceCounts(stackIds(stack), broken), broken)) found.push(stack);
      }
    }
  }
  return found;
}
