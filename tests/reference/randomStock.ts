/** The stock of a random plan in numbers: a few heads, what goes on them, and what nearly does. At most 12 pieces. */
import type { HeadForm, OpeningForm } from '../../shared-types/plan.ts';
import type { Dice } from './dice.ts';

export interface Pieces {
  id: string;
  kg: number;
  litres: number;
  sizeMm: number | null;
  tethers: number;
  onHand: number;
  /** The most that the stacks the steps were built around need at once. */
  wanted: number;
}

export interface Head {
  id: string;
  thread: string;
  form: HeadForm;
  size: string;
}

export interface DraftSocket extends Pieces {
  square: string;
  form: OpeningForm;
  size: string;
  mm: number;
  innerMm: number | null;
  outsideMm: number;
  ratedNm: number;
  head: string;
  /** Whether it goes on that head, or only nearly. */
  fits: boolean;
}

export interface DraftExtension extends Pieces {
  kind: 'rigid' | 'universal' | 'adapter';
  squareIn: string;
  squareOut: string;
  mm: number;
  outsideMm: number;
  ratedNm: number;
}

export interface DraftTool extends Pieces {
  square: string;
  maxNm: number;
  leverMm: number | null;
  stepDeg: number | null;
  /** Only of torque tools. */
  torque: {
    minNm: number;
    settingsNm: number[];
    incrementNm: number | null;
    accuracy: number;
    loosens: boolean;
  } | null;
}

export interface DraftGear extends Pieces {
  consumed: boolean;
}

export interface DraftStock {
  baseNm: number;
  /** Whether limits are now and then passed, so that a step may have no stack. */
  harsh: boolean;
  /** Whether steps are built around four extensions, one more than a stack may have. */
  deep: boolean;
  heads: Head[];
  sockets: DraftSocket[];
  extensions: DraftExtension[];
  tools: DraftTool[];
  gear: DraftGear[];
}

export const piecesMax = 12;

/** Heads by form, with names of one size, the openings that go on, and a size that nearly does. */
const heads: {
  form: HeadForm;
  thread: string;
  sizes: string[];
  fits: OpeningForm[];
  near: string;
  wrong: OpeningForm;
}[] = [
  {
    form: 'hex',
    thread: '1/4-28 UNF',
    sizes: ['7/16 in', '11.11 mm', '0.4375 in'],
    fits: ['hex6', 'hex12'],
    near: '11 mm',
    wrong: 'hexKey',
  },
  {
    form: 'hex',
    thread: 'M8',
    sizes: ['13 mm', '1.3 cm', '13.01 mm'],
    fits: ['hex6', 'hex12'],
    near: '1/2 in',
    wrong: 'square',
  },
  {
    form: 'nut',
    thread: '3/8-24 UNF',
    sizes: ['9/16 in', '14.29 mm'],
    fits: ['hex6', 'hex12'],
    near: '14 mm',
    wrong: 'hexKey',
  },
  {
    form: 'heavy-hex',
    thread: '1/2-13 UNC',
    sizes: ['7/8 in', '22.225 mm'],
    fits: ['hex12', 'hex6'],
    near: '22 mm',
    wrong: 'square',
  },
  {
    form: 'twelve-point',
    thread: '1/4-28 UNF',
    sizes: ['7/16 in', '11.11 mm'],
    fits: ['hex12'],
    near: '11 mm',
    wrong: 'hex6',
  },
  { form: 'twelve-point', thread: 'M8', sizes: ['13 mm'], fits: ['hex12'], near: '1/2 in', wrong: 'hex6' },
  { form: 'hex-socket', thread: 'M10', sizes: ['8 mm', '7.99 mm'], fits: ['hexKey'], near: '5/16 in', wrong: 'hex6' },
  { form: 'hexalobular', thread: 'M6', sizes: ['T30'], fits: ['hexalobular'], near: 'T25', wrong: 'hexalobular' },
  { form: 'square', thread: 'M10', sizes: ['3/8 in', '9.53 mm'], fits: ['square'], near: '10 mm', wrong: 'hex6' },
];

/** What every piece has besides its own: mass now and then nothing, size now and then not known. */
function pieces(dice: Dice, id: string): Pieces {
  const onHand = dice.chance(0.05) ? 0 : dice.pick([1, 1, 1, 2, 2]);
  return {
    id,
    kg: dice.chance(0.04) ? 0 : dice.pick([0.05, 0.08, 0.12, 0.2, 0.35, 0.45359237, 0.6, 0.0566990462]),
    litres: dice.pick([0.05, 0.1, 0.2, 0.32774128, 0.5]),
    sizeMm: dice.chance(0.12) ? null : dice.pick([50, 76.2, 120, 203.2, 300]),
    tethers: dice.pick([0, 0, 1, 1, 2]),
    onHand,
    wanted: 0,
  };
}

function sockets(
  dice: Dice,
  chosen: (Head & { kind: number })[],
  square: () => string,
  rated: () => number,
  harsh: boolean,
): DraftSocket[] {
  return chosen.flatMap((head) => {
    const kind = heads[head.kind];
    if (kind === undefined) return [];
    return Array.from({ length: dice.pick([1, 1, 2, 2]) }, (_, index): DraftSocket => {
      const spare = index > 0;
      const wrongForm = dice.chance(spare ? 0.3 : harsh ? 0.04 : 0);
      const nearSize = dice.chance(spare ? 0.15 : harsh ? 0.04 : 0) || (wrongForm && kind.wrong === 'hexalobular');
      return {
        ...pieces(dice, `socket-${head.id}-${index + 1}`),
        square: square(),
        form: wrongForm ? kind.wrong : dice.pick(kind.fits),
        size: nearSize ? kind.near : dice.pick(kind.sizes),
        mm: dice.pick([25.4, 30, 38, 50.8, 63.5, 80]),
        innerMm: dice.chance(spare ? 0.5 : 0.8) ? dice.pick([8, 12.7, 20, 30]) : null,
        outsideMm: dice.pick([16, 19.05, 22, 25.4]),
        ratedNm: rated(),
        head: head.id,
        fits: !wrongForm && !nearSize,
      };
    });
  });
}

function extensions(dice: Dice, main: string, other: string, rated: () => number): DraftExtension[] {
  return Array.from({ length: dice.pick([0, 1, 1, 2, 2, 3]) }, (_, index): DraftExtension => {
    const kind = dice.pick(['rigid', 'rigid', 'rigid', 'universal', 'adapter'] as const);
    const [squareIn, squareOut] =
      kind === 'adapter'
        ? dice.pick([
            [main, other],
            [other, main],
          ] as [string, string][])
        : dice.chance(0.9)
          ? [main, main]
          : [other, other];
    return {
      ...pieces(dice, `ext-${index + 1}`),
      kind,
      squareIn: squareIn ?? main,
      squareOut: squareOut ?? main,
      mm: dice.pick([25, 50.8, 76.2, 100, 152.4]),
      outsideMm: kind === 'adapter' ? 27 : dice.pick([12.7, 16, 19.05, 25.4]),
      ratedNm: rated(),
    };
  });
}

function torqueOf(dice: Dice, maxNm: number): NonNullable<DraftTool['torque']> {
  const minNm = maxNm * dice.pick([0.1, 0.2, 0.25]);
  const accuracy = dice.pick([0, 0.02, 0.03, 0.04, 0.04, 0.06]);
  const loosens = dice.chance(0.5);
  if (dice.chance(0.3)) {
    const settingsNm = Array.from(
      { length: dice.whole(2, 6) },
      () => maxNm * dice.pick([0.3, 0.4, 0.5, 0.6, 0.7, 0.8, 0.9, 1, 1.1]),
    );
    return { minNm, settingsNm: [...new Set(settingsNm)], incrementNm: null, accuracy, loosens };
  }
  const incrementNm = maxNm / dice.pick([10, 20, 25, 40]);
  const settingsNm: number[] = [];
  for (let k = 1; k * incrementNm <= maxNm * (1 + 1e-12); k++)
    if (k * incrementNm >= minNm) settingsNm.push(k * incrementNm);
  return { minNm, settingsNm, incrementNm, accuracy, loosens };
}

function tools(dice: Dice, square: () => string, baseNm: number, tighten: boolean, turn: boolean): DraftTool[] {
  const torqueTools = tighten ? dice.pick([1, 1, 2, 2]) : dice.pick([0, 0, 1]);
  const drivers = turn ? dice.pick([1, 1, 2, 2]) : dice.pick([0, 0, 1]);
  const shape = (): Pick<DraftTool, 'leverMm' | 'stepDeg'> => ({
    leverMm: dice.chance(0.7) ? dice.pick([150, 203.2, 254, 400]) : null,
    stepDeg: dice.chance(0.5) ? dice.pick([5, 15, 30, 45]) : null,
  });
  return [
    ...Array.from({ length: torqueTools }, (_, index): DraftTool => {
      const maxNm = baseNm * dice.pick([1.25, 1.5, 2, 2, 3]);
      return {
        ...pieces(dice, `wrench-${index + 1}`),
        square: square(),
        maxNm,
        ...shape(),
        torque: torqueOf(dice, maxNm),
      };
    }),
    ...Array.from({ length: drivers }, (_, index): DraftTool => ({
      ...pieces(dice, `driver-${index + 1}`),
      square: square(),
      maxNm: baseNm * dice.pick([index > 0 ? 0.7 : 1.75, 2, 2, 3]),
      ...shape(),
      torque: null,
    })),
  ];
}

const piecesOf = (stock: DraftStock): Pieces[] => [
  ...stock.sockets,
  ...stock.extensions,
  ...stock.tools,
  ...stock.gear,
];

export const wantedPieces = (stock: DraftStock): number => piecesOf(stock).reduce((sum, one) => sum + one.wanted, 0);

/** Puts on the shelf what the steps were built around, mostly, and takes pieces off until no more than the limit are left. */
export function fillShelf(dice: Dice, stock: DraftStock): void {
  const all = piecesOf(stock);
  for (const one of all) if (dice.chance(0.97)) one.onHand = Math.max(one.onHand, one.wanted);
  const count = (): number => all.reduce((sum, one) => sum + one.onHand, 0);
  while (count() > piecesMax) {
    const spare = all.filter((one) => one.onHand > one.wanted);
    dice.pick(spare.length > 0 ? spare : all.filter((one) => one.onHand > 0)).onHand -= 1;
  }
}

export function randomStock(dice: Dice, asks: { tighten: boolean; turn: boolean; gear: boolean }): DraftStock {
  const main = dice.pick(['1/4', '3/8', '1/2']);
  const other = dice.pick(['1/4', '3/8', '1/2', '3/4'].filter((one) => one !== main));
  const harsh = dice.chance(0.15);
  const mixed = dice.chance(0.35) ? 0.75 : 1;
  const square = (): string => (dice.chance(mixed) ? main : other);
  const baseNm = dice.pick([10, 12, 20, 27.11635896662801, 40, 60]);
  const rated = (): number => baseNm * dice.pick([harsh ? 1 : 1.75, 2, 2, 3, 3, 4]);
  const chosen = Array.from({ length: dice.pick([1, 1, 2, 2]) }, (_, index) => {
    const kind = dice.whole(0, heads.length - 1);
    const { form, thread, sizes } = heads[kind] ?? { form: 'hex', thread: 'M8', sizes: ['13 mm'] };
    return { id: `bolt-${index + 1}`, kind, form, thread, size: dice.pick(sizes) };
  });
  return {
    baseNm,
    harsh,
    deep: dice.chance(0.03),
    heads: chosen.map(({ id, form, thread, size }) => ({ id, form, thread, size })),
    sockets: sockets(dice, chosen, square, rated, harsh),
    extensions: extensions(dice, main, other, rated),
    tools: tools(dice, square, baseNm, asks.tighten, asks.turn),
    gear: Array.from({ length: asks.gear ? dice.pick([1, 1, 2]) : 0 }, (_, index) => ({
      ...pieces(dice, `gear-${index + 1}`),
      onHand: dice.whole(0, 2),
      consumed: dice.chance(0.5),
    })),
  };
}
