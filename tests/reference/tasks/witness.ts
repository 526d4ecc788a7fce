/**
 * A place of work drawn around stacks of the stock that do it: its room, torques and hold are laid around them with
 * slack, so that these stacks are the witness that its steps can be done.
 */
import type { HeadForm, PlanStep } from '../../../shared-types/plan.ts';
import type { Dice } from '../dice.ts';
import type { ExtensionItem, Item, SocketItem, TaskStock, ToolItem } from './items.ts';
import { formsOf, nominalNm } from './sizes.ts';
import type { HeadSize } from './sizes.ts';

type Access = NonNullable<PlanStep['access']>;

/** Socket and extensions, from the socket outwards, and the square the tool meets. */
interface Reaching {
  socket: SocketItem;
  chain: ExtensionItem[];
  square: ToolItem['square'];
  ratedNm: number;
}

export interface Interface {
  head: HeadSize;
  form: HeadForm;
  access: Access;
  demandNm: number;
  callout: { minNm: number; maxNm: number };
  hold: { head: HeadSize; form: HeadForm; access: Access } | null;
  /** The stacks it was drawn around; null where it does not do that work. */
  loosen: Witness | null;
  tighten: Witness | null;
}

/** A stack that does the work, from the tool to the socket, and one that holds. */
export interface Witness {
  stack: Item[];
  hold: Item[] | null;
}

/** Which work an interface is for. */
export interface Work {
  loosens: boolean;
  tightens: boolean;
  holds: boolean;
  /** Round room to 5 mm and 5°, as drawings do; else tenths. */
  rounded: boolean;
}

const stepDegOf = (tool: ToolItem, socket: SocketItem): number =>
  tool.stepDeg ?? { hex6: 60, hexKey: 60, hexalobular: 60, hex12: 30, square: 90 }[socket.form];

/** One of the list that passes, tried in a turning order from a random start; null where none does. */
function some<T>(dice: Dice, list: readonly T[], passes: (one: T) => boolean): T | null {
  const start = dice.whole(0, Math.max(0, list.length - 1));
  for (let n = 0; n < list.length; n++) {
    const one = list[(start + n * 7919) % list.length];
    if (one !== undefined && passes(one)) return one;
  }
  return null;
}

function reaching(
  dice: Dice,
  stock: TaskStock,
  asks: { head: HeadSize; demandNm: number; universals: number },
): Reaching | null {
  const { head, demandNm, universals } = asks;
  const socket = some(dice, stock.sockets, (one) => one.head === head && one.ratedNm >= demandNm);
  if (socket === null) return null;
  const chain: ExtensionItem[] = [];
  let { square } = socket;
  let joints = 0;
  for (let wanted = dice.pick([0, 0, 1, 1, 1, 1, 2, 2, 3]); wanted > 0; wanted--) {
    const part = some(
      dice,
      stock.extensions,
      (one) => one.squareOut === square && one.ratedNm >= demandNm && (one.kind !== 'universal' || joints < universals),
    );
    if (part === null) break;
    chain.push(part);
    square = part.squareIn;
    if (part.kind === 'universal') joints += 1;
  }
  return { socket, chain, square, ratedNm: Math.min(socket.ratedNm, ...chain.map((one) => one.ratedNm)) };
}

function room(dice: Dice, { socket, chain }: Reaching, tools: readonly ToolItem[], rounded: boolean): Access {
  const down = (mm: number): number => (rounded ? Math.floor(mm / 5) * 5 : Math.floor(mm * 10) / 10);
  const up = (mm: number): number => (rounded ? Math.ceil(mm) : Math.ceil(mm * 10) / 10);
  const lengthMm = chain.reduce((sum, part) => sum + part.mm, socket.mm);
  const depthMm = down(lengthMm * (0.7 + 0.3 * dice.roll()));
  const access: Access = { depth: `${depthMm} mm` };
  if (dice.chance(0.65)) {
    let beginsMm = 0;
    let widestMm = 0;
    for (const part of [socket, ...chain]) {
      if (beginsMm < depthMm) widestMm = Math.max(widestMm, part.outsideMm);
      beginsMm += part.mm;
    }
    access.clearDiameter = `${up(widestMm + dice.pick([0, 2, 4, 8]) * (rounded ? 1 : dice.roll()))} mm`;
  }
  const stepDeg = Math.max(...tools.map((tool) => stepDegOf(tool, socket)));
  if (dice.chance(0.6)) {
    const deg = stepDeg + dice.pick([0, 4, 10, 25]) * (rounded ? 1 : dice.roll());
    access.swingDeg = rounded ? Math.ceil(deg) : Math.ceil(deg * 10) / 10;
  }
  if (dice.chance(0.45)) {
    const leverMm = Math.max(...tools.map((tool) => tool.leverMm));
    access.handleRadius = `${up(leverMm + dice.pick([0, 10, 40, 120]) * (rounded ? 1 : dice.roll()))} mm`;
  }
  if (socket.innerMm !== null && dice.chance(0.3)) {
    access.protrusion = `${Math.max(0, down(socket.innerMm * (0.5 + 0.5 * dice.roll())))} mm`;
  }
  return access;
}

/** A setting of the tool nearest a torque, if its applied band lies inside; margins are kept clear of rounding. */
function setsInside({ torque, maxNm }: ToolItem, callout: { minNm: number; maxNm: number }): boolean {
  if (torque === null) return false;
  const setNm = Math.round((callout.minNm + callout.maxNm) / 2 / torque.incrementNm) * torque.incrementNm;
  if (setNm < torque.minNm * 1.001 || setNm > maxNm * 0.999) return false;
  return (
    setNm * (1 - torque.accuracy) > callout.minNm * 1.0001 && setNm * (1 + torque.accuracy) < callout.maxNm * 0.9999
  );
}

const twoDigits = (value: number): number => Number(value.toPrecision(value >= 100 ? 3 : 2));

const stackOf = (tool: ToolItem, { chain, socket }: Reaching): Item[] => [tool, ...chain.toReversed(), socket];

/** One try at an interface; null where the stock has no stack for what was drawn. */
function attempt(dice: Dice, stock: TaskStock, head: HeadSize, work: Work): Interface | null {
  const middleNm = nominalNm(head) * (0.85 + 0.3 * dice.roll());
  const share = dice.pick([0.08, 0.1, 0.12, 0.15]);
  const callout = { minNm: twoDigits(middleNm * (1 - share)), maxNm: twoDigits(middleNm * (1 + share)) };
  const demandNm = twoDigits(middleNm * dice.pick([1.25, 1.5, 1.5, 1.8]));
  const mostNm = Math.max(work.loosens ? demandNm : 0, work.tightens ? callout.maxNm : 0);
  const shaft = reaching(dice, stock, { head, demandNm: mostNm, universals: work.tightens ? 0 : 1 });
  if (shaft === null) return null;
  const toolFor = (serves: (tool: ToolItem) => boolean): ToolItem | null =>
    some(dice, stock.tools, (tool) => tool.square === shaft.square && serves(tool));
  const driver = toolFor((tool) => tool.torque === null && tool.maxNm >= demandNm);
  const wrench = toolFor((tool) => tool.maxNm >= callout.maxNm && setsInside(tool, callout));
  if ((work.loosens && driver === null) || (work.tightens && wrench === null)) return null;
  const tools = [...(work.loosens ? [driver] : []), ...(work.tightens ? [wrench] : [])].filter((one) => one !== null);
  const form = formFor(dice, head, shaft.socket);
  const held = work.holds ? holding(dice, stock, head, mostNm, work.rounded) : null;
  if (work.holds && held === null) return null;
  const witness = (tool: ToolItem | null): Witness | null =>
    tool === null ? null : { stack: stackOf(tool, shaft), hold: held?.stack ?? null };
  return {
    head,
    form,
    access: room(dice, shaft, tools, work.rounded),
    demandNm,
    callout,
    hold: held === null ? null : { head, form: held.form, access: held.access },
    loosen: work.loosens ? witness(driver) : null,
    tighten: work.tightens ? witness(wrench) : null,
  };
}

function holding(
  dice: Dice,
  stock: TaskStock,
  head: HeadSize,
  demandNm: number,
  rounded: boolean,
): { form: HeadForm; access: Access; stack: Item[] } | null {
  const shaft = reaching(dice, stock, { head, demandNm, universals: 1 });
  if (shaft === null) return null;
  const tool = some(
    dice,
    stock.tools,
    (one) => one.torque === null && one.square === shaft.square && one.maxNm >= demandNm,
  );
  if (tool === null) return null;
  return {
    form: formFor(dice, head, shaft.socket),
    access: room(dice, shaft, [tool], rounded),
    stack: stackOf(tool, shaft),
  };
}

/** A head that the socket's opening goes on. */
function formFor(dice: Dice, head: HeadSize, socket: SocketItem): HeadForm {
  const forms = formsOf[head.kind].heads.filter((form) => form !== 'twelve-point' || socket.form === 'hex12');
  return dice.pick(forms);
}

/** Thrown where a stock, mostly a small one, has no stack for any of its heads. */
export class NoWorkError extends Error {}

const attemptsMax = 4000;

/** An interface on one of the heads, tried anew until the stock has a stack for it. */
export function drawInterface(dice: Dice, stock: TaskStock, heads: readonly HeadSize[], work: Work): Interface {
  for (let n = 0; n < attemptsMax; n++) {
    const found = attempt(dice, stock, dice.pick(heads), work);
    if (found !== null) return found;
  }
  throw new NoWorkError(`reference: no stack of this stock does any work in ${attemptsMax} tries`);
}
