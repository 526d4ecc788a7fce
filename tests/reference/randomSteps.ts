/** Steps for a random stock: each is built around some stack the stock can form, at, just within or just past its limits. */
import type { PlanStep } from '../../shared-types/plan.ts';
import type { Dice } from './dice.ts';
import { lengthText, torqueText } from './quantityText.ts';
import type { DraftExtension, DraftSocket, DraftStock, DraftTool, Head, Pieces } from './randomStock.ts';

export interface StepFrame {
  id: string;
  outing: string;
  role: string;
  slot: string | null;
  action: 'tighten' | 'loosen' | 'use';
}

type Access = NonNullable<PlanStep['access']>;

/** A stack that a step is built around. */
export interface Target {
  head: Head;
  tool: DraftTool;
  chain: DraftExtension[];
  socket: DraftSocket;
}

/** Some tool, extensions and socket for a head whose squares meet where the stock has any, else any that do not. */
function target(
  dice: Dice,
  stock: DraftStock,
  head: Head,
  may: { tools: DraftTool[]; universals: number; known: Target[] },
): Target | null {
  const { tools, universals, known } = may;
  const sockets = stock.sockets.filter(
    (socket) => socket.head === head.id && (socket.fits || (stock.harsh && dice.chance(0.1))),
  );
  if (sockets.length === 0 || tools.length === 0) return null;
  const again = known.filter(
    (one) =>
      one.head === head &&
      tools.includes(one.tool) &&
      (universals > 0 || !one.chain.some((part) => part.kind === 'universal')),
  );
  if (again.length > 0 && dice.chance(0.6)) return dice.pick(again);
  const lengthWanted = stock.deep ? 4 : dice.pick([0, 0, 0, 0, 1, 1, 1, 1, 1, 2, 2, 3, 3]);
  let fallback: Target | null = null;
  for (let attempt = 0; attempt < 60; attempt++) {
    const length = attempt < 30 ? lengthWanted : attempt % 4;
    const chain = stock.extensions.length === 0 ? [] : Array.from({ length }, () => dice.pick(stock.extensions));
    const one = { head, tool: dice.pick(tools), chain, socket: dice.pick(sockets) };
    fallback ??= { ...one, chain: [] };
    const joints = chain.filter((part) => part.kind === 'universal').length;
    let male = one.tool.square;
    const meets = chain.every((part) => {
      const fits = part.squareIn === male;
      male = part.squareOut;
      return fits;
    });
    if (meets && male === one.socket.square && joints <= universals) return one;
  }
  if (fallback !== null && dice.chance(0.8)) fallback.socket.square = fallback.tool.square;
  return fallback;
}

/** Room around a target: enough for it, exactly enough, and in a harsh plan now and then not quite enough. */
function access(dice: Dice, { tool, chain, socket }: Target, harsh: boolean): Access | null {
  if (dice.chance(0.1)) return null;
  const past = (): boolean => harsh && dice.chance(0.15);
  const lengthMm = chain.reduce((sum, part) => sum + part.mm, socket.mm);
  const depthMm = past()
    ? lengthMm + 2
    : dice.pick([lengthMm, lengthMm, lengthMm, lengthMm - 3, lengthMm * 0.6, socket.mm, 0]);
  const result: Access = { depth: lengthText(dice, depthMm) };
  if (dice.chance(0.4)) {
    const inside = depthMm <= socket.mm ? [socket] : [socket, ...chain];
    const widest = Math.max(...inside.map((part) => part.outsideMm));
    result.clearDiameter = lengthText(dice, past() ? widest - 1 : dice.pick([widest, widest, widest + 4]));
  }
  const stepDeg = tool.stepDeg ?? { hex6: 60, hexKey: 60, hexalobular: 60, hex12: 30, square: 90 }[socket.form];
  if (dice.chance(0.4))
    result.swingDeg = past() ? Math.max(4, stepDeg - 10) : dice.pick([stepDeg, stepDeg, stepDeg + 15]);
  if (dice.chance(0.35) && tool.leverMm !== null) {
    result.handleRadius = lengthText(
      dice,
      past() ? tool.leverMm - 10 : dice.pick([tool.leverMm, tool.leverMm, tool.leverMm + 50]),
    );
  }
  if (dice.chance(0.35) && (socket.innerMm !== null || past())) {
    const innerMm = socket.innerMm ?? 5;
    result.protrusion = lengthText(dice, past() ? innerMm + 2 : dice.pick([innerMm, innerMm, innerMm - 2]));
  }
  return result;
}

/** A band around one of the tool's settings: exactly as wide as its accuracy, wider, narrower, or between two settings. */
function band(dice: Dice, tool: DraftTool, baseNm: number, harsh: boolean): { minNm: number; maxNm: number } {
  const settings = (tool.torque?.settingsNm ?? []).toSorted((a, b) => a - b);
  const usable = settings.filter((setNm) => setNm <= tool.maxNm * 0.75 && setNm <= baseNm * 1.25);
  const setNm = usable.length > 0 ? dice.pick(usable) : (settings[0] ?? baseNm);
  const share = tool.torque?.accuracy ?? 0.04;
  const next = settings.find((one) => one > setNm && one <= tool.maxNm * 0.8) ?? setNm;
  const edge = dice.pick([share, share, 0.1, 0.15, harsh && dice.chance(0.5) ? share / 2 : 0.2]);
  if (dice.chance(0.3))
    return {
      minNm: setNm * (1 - share) - 0.02 * baseNm,
      maxNm: next * (1 + share) + 0.02 * baseNm,
    };
  if (dice.chance(0.2)) {
    const halfNm = (next - setNm) / 2 + next * share + 0.01 * baseNm;
    return { minNm: (setNm + next) / 2 - halfNm, maxNm: (setNm + next) / 2 + halfNm };
  }
  return { minNm: setNm * (1 - edge), maxNm: setNm * (1 + edge) };
}

function tightening(
  dice: Dice,
  tool: DraftTool,
  baseNm: number,
  harsh: boolean,
): { asks: Pick<PlanStep, 'callout' | 'running' | 'runningIncluded'>; demandsNm: number[] } {
  const { minNm, maxNm } = band(dice, tool, baseNm, harsh);
  const callout = (low: number, high: number): { min: string; max: string } => ({
    min: torqueText(dice, low),
    max: torqueText(dice, high),
  });
  if (dice.chance(0.6)) return { asks: { callout: callout(minNm, maxNm) }, demandsNm: [maxNm] };
  const runMaxNm = minNm * dice.pick([0.05, 0.1, 0.2]);
  const runMinNm = runMaxNm * dice.pick([0, 0.5, 1]);
  const running = callout(runMinNm, runMaxNm);
  if (dice.chance(0.35)) {
    const said = dice.chance(0.5) ? { runningIncluded: true } : {};
    return { asks: { callout: callout(minNm, maxNm), running, ...said }, demandsNm: [maxNm] };
  }
  const [lowNm, highNm] = [minNm - runMaxNm, maxNm - runMinNm];
  // The second demand is what a reader that forgets the running torque would ask.
  const demandsNm = [highNm + runMaxNm, highNm];
  return { asks: { callout: callout(lowNm, highNm), running, runningIncluded: false }, demandsNm };
}

/** One step; `known` are the stacks that earlier steps were built around, so that steps share pieces. */
export function randomStep(
  dice: Dice,
  stock: DraftStock,
  frame: StepFrame,
  known: Target[],
): { step: PlanStep; demandsNm: number[]; pieces: Pieces[] } {
  const { slot, ...named } = frame;
  const step: PlanStep = { ...named, ...(slot === null ? {} : { slot }) };
  if (frame.action === 'use') return { step, demandsNm: [], pieces: [] };
  const head = dice.pick(stock.heads);
  const tightens = frame.action === 'tighten';
  const tools = stock.tools.filter((tool) =>
    tightens ? tool.torque !== null : tool.torque === null || tool.torque.loosens,
  );
  const aimed = target(dice, stock, head, { tools, universals: dice.chance(0.95) === tightens ? 0 : 1, known });
  if (aimed !== null) known.push(aimed);
  step.fastener = head.id;
  const fits = aimed === null ? null : access(dice, aimed, stock.harsh);
  if (fits !== null) step.access = fits;
  let demandsNm: number[];
  if (tightens) {
    const tool = aimed?.tool ?? stock.tools.find((one) => one.torque !== null);
    const anyBand = { asks: { callout: { min: '10 N·m', max: '12 N·m' } }, demandsNm: [12] };
    const drawn = tool === undefined ? anyBand : tightening(dice, tool, stock.baseNm, stock.harsh);
    Object.assign(step, drawn.asks);
    demandsNm = drawn.demandsNm;
  } else {
    const demandNm = stock.baseNm * dice.pick([0.5, 0.8, 1, 1, 1.25]);
    step.demand = torqueText(dice, demandNm);
    demandsNm = [demandNm];
  }
  let holds: Target | null = null;
  if (dice.chance(0.15)) {
    const other = dice.pick(stock.heads);
    holds = target(dice, stock, other, {
      tools: stock.tools.filter((tool) => tool.torque === null),
      universals: 1,
      known: [],
    });
    const around = holds === null ? null : access(dice, holds, stock.harsh);
    step.hold = { fastener: other.id, ...(around === null ? {} : { access: around }) };
  }
  const pieces = [aimed, holds].flatMap((one) => (one === null ? [] : [one.tool, ...one.chain, one.socket]));
  return { step, demandsNm, pieces };
}
