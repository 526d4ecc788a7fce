/**
 * Families as a tool store keeps them: one shape in every size and length, in several drives and several series, masses
 * growing with length and square. The list is longer than any stock asked for; a stock is a draw from it.
 */
import type { Dice } from '../dice.ts';
import { bar } from './items.ts';
import type { ExtensionItem, Item, SocketItem, TaskStock, ToolItem } from './items.ts';
import { formsOf, nominalNm, squares, suits } from './sizes.ts';
import type { HeadSize, Square } from './sizes.ts';

/** Every series is its own make: a little longer, a little stouter. */
const series = ['a', 'b', 'c', 'd', 'e', 'f'] as const;
type Series = (typeof series)[number];
const stouter = (one: Series): number => 1 + 0.04 * series.indexOf(one);

const item = (id: string, of: { grams: number; millilitres: number; sizeMm: number; tethers?: number }): Item => ({
  id,
  tethers: 0,
  ...of,
  onHand: 1,
});

/** Whole newton metres from 10 up, tenths below. */
const roundNm = (nm: number): number => (nm >= 10 ? Math.round(nm) : Math.round(nm * 10) / 10);

/** Outside diameter of a socket by its wall: so many times the size, and so much more. */
const wallMm: Record<string, [times: number, plus: number]> = {
  standard: [1.36, 2],
  thin: [1.28, 1],
  impact: [1.5, 4],
};

function socketsOfSize(head: HeadSize, square: Square, one: Series): SocketItem[] {
  const shapes =
    head.kind === 'hexagon'
      ? formsOf.hexagon.openings.flatMap((form) =>
          (['standard', 'thin', ...(form === 'hex6' && square.name !== '1/4' ? ['impact'] : [])] as const).flatMap(
            (wall) => (['short', 'deep'] as const).map((reach) => ({ form, wall, reach })),
          ),
        )
      : formsOf[head.kind].openings.flatMap((form) =>
          (['short', 'deep', 'long'] as const).map((reach) => ({ form, wall: 'standard', reach })),
        );
  return shapes.map(({ form, wall, reach }): SocketItem => {
    const grow = stouter(one);
    const lengthMm = Math.round(
      { short: square.socketMm + 0.3 * head.mm, deep: square.deepMm + 0.2 * head.mm, long: square.deepMm * 2 }[reach] *
        grow,
    );
    const [times, plus] = wallMm[wall] ?? [1.36, 2];
    const hexagon = head.kind === 'hexagon';
    const outsideMm = Math.round(hexagon ? Math.max(square.bodyMm, head.mm * times + plus * grow) : square.bodyMm);
    const strongNm = nominalNm(head) * (hexagon ? 4.5 : 2.6);
    const share = { standard: 1, thin: 0.75, impact: 1.4 }[wall] ?? 1;
    const ratedNm = roundNm(Math.min(square.ratedNm, strongNm) * share * (form === 'hex12' ? 0.85 : 1));
    const size = head.text.replaceAll(/[ /]/g, '-');
    const innerMm = Math.round(reach === 'short' ? head.mm * 0.7 : lengthMm - square.bodyMm);
    return {
      ...item(`socket-${square.name.replace('/', '-')}-${size}-${form}-${wall}-${reach}-${one}`, {
        ...bar(outsideMm, lengthMm, hexagon ? 0.55 : 0.45),
        sizeMm: Math.max(lengthMm, outsideMm),
      }),
      square: square.name,
      form,
      head,
      mm: lengthMm,
      innerMm: hexagon ? innerMm : null,
      outsideMm,
      ratedNm,
    };
  });
}

const extensionLengthsMm = [50, 75, 100, 125, 150, 200, 250, 300, 375, 450, 600];

function extensionsOf(square: Square, one: Series): ExtensionItem[] {
  const name = square.name.replace('/', '-');
  const grow = stouter(one);
  const part = (
    id: string,
    kind: ExtensionItem['kind'],
    shape: { mm: number; outsideMm: number; squareOut?: Square['name']; share?: number; rated?: number },
  ): ExtensionItem => {
    const lengthMm = Math.round(shape.mm * grow);
    const shaft = bar(square.barMm, lengthMm, shape.share ?? 0.95);
    const head = bar(shape.outsideMm, square.bodyMm * 1.2, 0.6);
    return {
      ...item(`${id}-${name}-${one}`, {
        grams: shaft.grams + head.grams,
        millilitres: shaft.millilitres + head.millilitres,
        sizeMm: lengthMm,
      }),
      kind,
      squareIn: square.name,
      squareOut: shape.squareOut ?? square.name,
      mm: lengthMm,
      outsideMm: shape.outsideMm,
      ratedNm: roundNm(square.ratedNm * (shape.rated ?? 1)),
    };
  };
  const at = squares.indexOf(square);
  const neighbours = [squares[at - 1], squares[at + 1]].filter((other) => other !== undefined);
  return [
    ...extensionLengthsMm.flatMap((mm) => [
      part(`ext-${mm}`, 'rigid', { mm, outsideMm: square.bodyMm }),
      part(`ext-slim-${mm}`, 'rigid', { mm: mm + 5, outsideMm: square.bodyMm - 2, share: 0.85, rated: 0.75 }),
    ]),
    part('universal', 'universal', { mm: 45, outsideMm: square.bodyMm + 3, rated: 0.6 }),
    part('universal-long', 'universal', { mm: 180, outsideMm: square.bodyMm + 3, rated: 0.6 }),
    ...neighbours.flatMap((other) =>
      [1, 1.8].map((times) =>
        part(`adapter-${times === 1 ? 'short' : 'long'}-to-${other.name.replace('/', '-')}`, 'adapter', {
          mm: square.bodyMm * 1.5 * times + 6,
          outsideMm: Math.max(square.bodyMm, other.bodyMm),
          squareOut: other.name,
          rated: Math.min(1, other.ratedNm / square.ratedNm),
        }),
      ),
    ),
  ];
}

function driversOf(square: Square, one: Series): ToolItem[] {
  const name = square.name.replace('/', '-');
  const reach = { '1/4': 125, '3/8': 200, '1/2': 280, '3/4': 500 }[square.name] * stouter(one);
  const kinds: [id: string, lever: number, max: number, stepDeg: number | null][] = [
    ['ratchet', 1, 1, 8],
    ['ratchet-fine', 1, 0.9, 5],
    ['ratchet-finest', 1.05, 0.85, 3.6],
    ['ratchet-stub', 0.55, 0.7, 8],
    ['ratchet-stub-fine', 0.6, 0.65, 5],
    ['ratchet-long', 1.5, 1.1, 8],
    ['ratchet-flex', 1.2, 0.9, 6],
    ['breaker', 1.6, 1.5, null],
    ['breaker-long', 2.2, 1.8, null],
    ['t-handle', 0.6, 0.8, null],
    ['slide-handle', 0.9, 1, null],
  ];
  return kinds.map(([id, lever, max, stepDeg]): ToolItem => {
    const leverMm = Math.round(reach * lever);
    return {
      ...item(`${id}-${name}-${one}`, {
        ...bar(square.barMm * 1.35, leverMm, stepDeg === null ? 0.8 : 0.95),
        sizeMm: leverMm + 20,
        tethers: 1,
      }),
      square: square.name,
      maxNm: roundNm(square.ratedNm * max * 0.9),
      leverMm,
      stepDeg,
      torque: null,
    };
  });
}

const rangesNm: Record<Square['name'], [minNm: number, maxNm: number, incrementNm: number][]> = {
  '1/4': [
    [1, 6, 0.05],
    [2, 12, 0.1],
    [5, 25, 0.2],
    [8, 40, 0.5],
  ],
  '3/8': [
    [5, 30, 0.25],
    [10, 60, 0.5],
    [20, 100, 1],
    [25, 135, 1],
  ],
  '1/2': [
    [20, 100, 1],
    [40, 200, 1],
    [60, 340, 2],
    [80, 400, 2.5],
  ],
  '3/4': [
    [100, 500, 5],
    [150, 800, 5],
    [200, 1000, 10],
    [300, 1300, 10],
  ],
};

function torqueToolsOf(square: Square, one: Series): ToolItem[] {
  const name = square.name.replace('/', '-');
  return rangesNm[square.name].flatMap(([minNm, maxNm, incrementNm]) =>
    [
      { id: 'click', accuracy: 0.04, heavy: 1, loosens: false, stepDeg: 7.5 },
      { id: 'dial', accuracy: 0.03, heavy: 1.15, loosens: true, stepDeg: null },
      { id: 'electronic', accuracy: 0.02, heavy: 1.3, loosens: true, stepDeg: 5 },
    ].map(({ id, accuracy, heavy, loosens, stepDeg }): ToolItem => {
      const leverMm = Math.round((170 + 26 * Math.sqrt(maxNm)) * stouter(one));
      return {
        ...item(`torque-${id}-${name}-${maxNm}-${one}`, {
          ...bar(square.barMm * 1.5, leverMm, 0.75 * heavy),
          sizeMm: leverMm + 40,
          tethers: 1,
        }),
        square: square.name,
        maxNm,
        leverMm,
        stepDeg,
        torque: { minNm, incrementNm, accuracy, loosens },
      };
    }),
  );
}

/** How many items of each kind a stock has. */
export interface StockCounts {
  sockets: number;
  extensions: number;
  drivers: number;
  torqueTools: number;
}

/** A draw of so many from a list that grows series by series, in the order of the list. */
function draw<T>(dice: Dice, count: number, ofSeries: (one: Series) => T[]): T[] {
  const all: T[] = [];
  for (const one of series) {
    if (all.length >= count * 1.2) break;
    all.push(...ofSeries(one));
  }
  if (all.length < count) throw new Error(`reference: the families have ${all.length} items, ${count} are asked for`);
  const chosen = new Set(shuffled(dice, all).slice(0, count));
  return all.filter((one) => chosen.has(one));
}

export function shuffled<T>(dice: Dice, list: readonly T[]): T[] {
  return list
    .map((one) => ({ one, key: dice.roll() }))
    .toSorted((a, b) => a.key - b.key)
    .map(({ one }) => one);
}

export function familyStock(
  dice: Dice,
  counts: StockCounts,
  heads: readonly HeadSize[],
  squaresUsed: readonly Square[],
): TaskStock {
  const bySquare = <T>(of: (square: Square, one: Series) => T[]): ((one: Series) => T[]) => {
    return (one) => squaresUsed.flatMap((square) => of(square, one));
  };
  const stock: TaskStock = {
    sockets: draw(
      dice,
      counts.sockets,
      bySquare((square, one) =>
        heads.filter((head) => suits(square, head)).flatMap((head) => socketsOfSize(head, square, one)),
      ),
    ),
    extensions: draw(dice, counts.extensions, bySquare(extensionsOf)),
    tools: [
      ...draw(dice, counts.drivers, bySquare(driversOf)),
      ...draw(dice, counts.torqueTools, bySquare(torqueToolsOf)),
    ],
    gear: [],
  };
  for (const one of [...stock.sockets, ...stock.extensions, ...stock.tools]) one.onHand = dice.pick([1, 1, 2, 2, 3]);
  return stock;
}
