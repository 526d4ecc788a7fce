import type { TaskStep } from '../../../shared-types/records/task.ts';
import { partSaid, practiceWords, usualParts, type UsualPart, type Way } from './parts.ts';
import { shareOfTorque } from './shares.ts';

/** What steps are made for: an interface, or fasteners without one. */
export interface Touched {
  /** Tells it from the others asked about. */
  key: string;
  /** As the steps' names call it: "Drive flange (A)". */
  called: string;
  /** Key of the interface. */
  interface?: string;
  /** Code of the fastener; absent where it has none, empty where it is not said yet which. */
  fastener?: string;
  /** Where the interface does not say it itself. */
  ownFastener?: boolean;
  count: number;
  /** Stays with its part, so that it is never taken out. */
  isCaptive?: boolean;
  /** Positions in the order in which the interface says they are tightened. */
  order?: readonly string[];
  /** What is wrong with that order, in words; it is then not followed. */
  orderFault?: string;
  /** What works it: offered to the steps that are done by hand or with gear. */
  gear?: NonNullable<TaskStep['gear']>;
}

type Band = NonNullable<TaskStep['callout']>;

/** What a person typed; nothing of it is made up where it is absent. */
export interface UsualFigures {
  /** The most it takes to break one loose. */
  demand?: string;
  callout?: Band;
  calloutSource?: string;
  calloutFrom?: NonNullable<TaskStep['calloutFrom']>;
  running?: Band;
  runningIncluded?: boolean;
  /** In percent, rising; the whole callout is the final pass whether it is listed or not. */
  shares?: readonly number[];
  /** In percent. */
  snugShare?: number;
  check?: Band;
  checkSource?: string;
  /** Codes of gear. */
  lubricant?: string;
  marker?: string;
  /** Where fasteners lie that were taken out: "bag", or a place. */
  takenTo?: string;
}

export interface UsualAsked {
  ways: readonly Way[];
  touched: readonly Touched[];
  /** One thing after another, or each part over all of them. */
  order: 'thing' | 'part';
  outing: string;
  role: string;
  figures: UsualFigures;
}

/** A step that is offered. */
export interface UsualStep {
  /** The same for the same part of the same thing, whatever else is asked. */
  key: string;
  part: UsualPart;
  /** Which pass on the way to the whole callout, from 1; 0 for all else. */
  pass: number;
  isUsual: boolean;
  assumes: string;
  step: Omit<TaskStep, 'id' | 'rev' | 'task' | 'position' | 'code'>;
}

/**
 * The steps that are usually done to fasteners, couplings and covers, for a person to leave out, change and add.
 *
 * @returns in order of work; a step whose figures were not typed has none, and is not complete yet
 */
export function usualSteps(asked: UsualAsked): UsualStep[] {
  const { ways, touched, order } = asked;
  const byThing = touched.map((thing) => ways.flatMap((way) => stepsOf(thing, way, asked)));
  if (order === 'thing') return byThing.flat();
  const parts = ways.flatMap((way) => usualParts.filter((part) => partSaid[part].way === way));
  // Every thing has its first pass before any has its second.
  const passes = [...new Set(byThing.flat().map(({ pass }) => pass))];
  return parts.flatMap((part) =>
    passes.flatMap((pass) => byThing.flat().filter((one) => one.part === part && one.pass === pass)),
  );
}

function stepsOf(thing: Touched, way: Way, asked: UsualAsked): UsualStep[] {
  const isThreaded = thing.fastener !== undefined;
  const parts: readonly UsualPart[] = isThreaded
    ? way === 'off'
      ? ['loosen', 'take-out', 'clean']
      : ['lubricate', 'start', 'running', 'snug', 'pass', 'final', 'check', 'stripe']
    : way === 'off'
      ? ['open', 'look-over']
      : ['close', 'closed'];
  return parts.flatMap((part) => {
    if (part !== 'pass') return [usualStep(thing, part, asked, figuresOf(thing, part, asked.figures))];
    const shares = (asked.figures.shares ?? []).filter((share) => share < 100);
    return shares.map((share, index) => {
      const made = usualStep(thing, part, asked, torque(asked.figures, share));
      const name = `${made.step.name} · pass ${index + 1} of ${shares.length + 1}, ${share} %`;
      return { ...made, pass: index + 1, key: `${made.key}-${index + 1}`, step: { ...made.step, name } };
    });
  });
}

function usualStep(
  thing: Touched,
  part: UsualPart,
  { outing, role, figures }: UsualAsked,
  own: Partial<TaskStep>,
): UsualStep {
  const { action, name, isUsual, assumes } = partSaid[part];
  const all = thing.count > 1 ? `${thing.called}, all ${thing.count}` : thing.called;
  // A person who typed a figure wants the step that takes it.
  const isAsked =
    (part === 'snug' && figures.snugShare !== undefined) ||
    (part === 'running' && figures.running !== undefined) ||
    (part === 'check' && figures.check !== undefined) ||
    (part === 'lubricate' && figures.lubricant !== undefined);
  const isHeld = thing.isCaptive === true && (part === 'take-out' || part === 'start');
  const said = [assumes, ...orderSaid(thing, part)].join(' ');
  return {
    key: `${thing.key}-${part}`,
    part,
    pass: 0,
    isUsual: (isUsual || isAsked) && !isHeld,
    assumes: isHeld ? `${said} These are captive and stay where they are.` : said,
    step: {
      ...{ outing, role, action, name: name.replace('{}', () => all) },
      ...(thing.interface === undefined ? {} : { interface: thing.interface }),
      ...(thing.ownFastener === true && thing.fastener !== undefined && action !== 'use'
        ? { fastener: thing.fastener, count: thing.count }
        : {}),
      ...own,
      notes: `${practiceWords} ${said}`.slice(0, 2000),
    },
  };
}

/** Parts that go from one position to the next as the interface says. */
const ordered: ReadonlySet<UsualPart> = new Set(['running', 'snug', 'pass', 'final', 'check']);
const orderMost = 60;

/** A part that tightens follows the order of its interface, where that has one which can be followed. */
function orderSaid({ order = [], orderFault }: Touched, part: UsualPart): string[] {
  if (!ordered.has(part) || order.length === 0) return [];
  if (orderFault !== undefined)
    return [`The interface’s order of tightening ${orderFault}: mend it in Sites before this step is done.`];
  const more = order.length > orderMost ? ` and ${order.length - orderMost} more, as the interface lists them` : '';
  return [`In the interface’s own order: ${order.slice(0, orderMost).join(', ')}${more}.`];
}

/** What of the figures goes into a part. */
function figuresOf({ fastener, count, isCaptive, gear }: Touched, part: UsualPart, f: UsualFigures): Partial<TaskStep> {
  const moves = (from: string, to: string): Partial<TaskStep> =>
    fastener === undefined || isCaptive === true
      ? {}
      : { fastenerMoves: [{ id: fastener, quantity: count, from, to }] };
  const takes = (id: string | undefined): Partial<TaskStep> =>
    id === undefined ? {} : { gear: [{ id, quantity: 1 }] };
  switch (part) {
    case 'loosen':
      return f.demand === undefined ? {} : { demand: f.demand };
    case 'take-out':
      return f.takenTo === undefined ? {} : moves('site', f.takenTo);
    case 'start':
      return f.takenTo === undefined ? {} : moves(f.takenTo, 'site');
    case 'lubricate':
      return takes(f.lubricant);
    case 'stripe':
      return takes(f.marker);
    case 'open':
    case 'close':
      return gear === undefined || gear.length === 0 ? {} : { gear: [...gear] };
    case 'running':
      return f.running === undefined ? {} : { callout: f.running };
    case 'snug':
      return f.snugShare === undefined ? {} : torque(f, f.snugShare);
    case 'final':
      return torque(f, 100);
    case 'check':
      return {
        ...(f.check === undefined ? {} : { callout: f.check }),
        ...(f.checkSource === undefined ? {} : { calloutSource: f.checkSource }),
      };
    default:
      return {};
  }
}

/** The callout, or a share of it; the running torque stays whole, as it is the thread's own. */
function torque(f: UsualFigures, sharePercent: number): Partial<TaskStep> {
  const { callout, calloutSource, calloutFrom, running, runningIncluded } = f;
  if (callout === undefined) return {};
  const isWhole = sharePercent === 100;
  const of = (text: string): string => (isWhole ? text : shareOfTorque(text, sharePercent));
  const source = isWhole
    ? calloutSource
    : `${sharePercent} % of ${calloutSource ?? `${callout.min} to ${callout.max}`}`;
  return {
    callout: { min: of(callout.min), max: of(callout.max) },
    ...(source === undefined ? {} : { calloutSource: source.slice(0, 2000) }),
    ...(isWhole && calloutFrom !== undefined ? { calloutFrom } : {}),
    ...(running === undefined ? {} : { running }),
    ...(runningIncluded === undefined ? {} : { runningIncluded }),
  };
}
