import { userEvent } from 'vitest/browser';
import { describe, expect, test, vi } from 'vitest';
import type { BagOuting } from '../../shared-types/bag.ts';
import { BagDrawing } from '../../renderer/components/BagDrawing/BagDrawing.tsx';
import { bagFills } from '../../renderer/components/BagDrawing/bagFill.ts';
import { bagLayout } from '../../renderer/components/BagDrawing/bagLayout.ts';
import { planFrom } from '../../renderer/engine/plan/readPlan.ts';
import { shown } from './shown.tsx';

const square = { driveIn: '3/8 in', driveOut: '3/8 in', ratedTorque: '100 N·m' };

const plan = planFrom({
  catalog: {
    sockets: [
      {
        id: 'S-18D',
        name: 'Socket 9/16 in deep',
        drive: '3/8 in',
        opening: { form: 'hex6', size: '9/16 in' },
        length: '53 mm',
        outsideDiameter: '20 mm',
        ratedTorque: '100 N·m',
        mass: '0.152 kg',
        volume: '0.02 L',
        onHand: 2,
      },
    ],
    extensions: [
      {
        ...square,
        id: 'X-06',
        kind: 'rigid',
        length: '150 mm',
        outsideDiameter: '16 mm',
        mass: '0.262 kg',
        volume: '0.04 L',
        onHand: 1,
      },
      { ...square, id: 'U-1', kind: 'universal', length: '58 mm', outsideDiameter: '20 mm', mass: '0.1 kg', onHand: 1 },
    ],
    drivers: [
      {
        id: 'R-38',
        drive: '3/8 in',
        max: '100 N·m',
        lever: '200 mm',
        mass: '0.3 kg',
        volume: '0.1 L',
        tethers: 1,
        onHand: 1,
      },
    ],
    carryGear: [
      { id: 'T-07', name: 'Tool tether', mass: '48 g', volume: '0.05 L', size: '80 mm', tethers: 1, onHand: 9 },
      { id: 'W-10', mass: '0.12 kg', volume: '0.3 L', onHand: 9 },
    ],
    bags: [
      { id: 'SR-L', name: 'Lead’s bag', massMax: '2 kg', volumeMax: '1 L', itemsMax: 6, tetherPoints: 3 },
      { id: 'SR-S' },
      { id: 'SR-E' },
    ],
  },
  outings: [{ id: 'o', roles: ['Lead'], bags: ['SR-L', 'SR-S', 'SR-E'] }],
  steps: [],
});

const outing: BagOuting = {
  id: 'o',
  massKg: 1.4,
  items: [
    { id: 'R-38', quantity: 1, bag: 'SR-L', because: [] },
    { id: 'X-06', quantity: 1, bag: 'SR-L', because: [] },
    { id: 'S-18D', quantity: 2, bag: 'SR-L', because: [] },
    { id: 'T-07', quantity: 7, bag: 'SR-L', because: [] },
    { id: 'U-1', quantity: 1, bag: 'SR-S', because: [] },
    { id: 'W-10', quantity: 1, bag: 'SR-S', because: [] },
  ],
  steps: [],
};

describe('the bags as laid out', () => {
  test.each([260, 400, 700])('in a field of %s px every line has its place and none lies on another', (widthPx) => {
    const layout = bagLayout(plan, outing, widthPx);
    expect(layout.bags.map(({ bag, items }) => [bag.id, items.length])).toEqual([
      ['SR-L', 4],
      ['SR-S', 2],
    ]);
    for (const { items, heightPx } of layout.bags) {
      const out = items.filter(
        ({ x, y, widthPx: w, heightPx: h }) => x < 0 || y < 0 || x + w > widthPx + 0.01 || y + h > heightPx + 0.01,
      );
      expect(out).toEqual([]);
      const meeting = items.flatMap((a, index) =>
        items
          .slice(index + 1)
          .filter(
            (b) => a.x < b.x + b.widthPx && b.x < a.x + a.widthPx && a.y < b.y + b.heightPx && b.y < a.y + a.heightPx,
          ),
      );
      expect(meeting).toEqual([]);
    }
  });

  test('one scale holds for every piece of every bag', () => {
    const { bags, pxPerMm } = bagLayout(plan, outing, 500);
    const piece = (id: string) => bags.flatMap(({ items }) => items).find((item) => item.id === id)?.silhouette;
    const across = (id: string): number => {
      const numbers = [...(piece(id)?.draw(pxPerMm).outer.join('') ?? '').matchAll(/-?\d+(?:\.\d+)?/g)].map(([n]) =>
        Number(n),
      );
      return Math.max(...numbers.filter((_, index) => index % 2 === 0));
    };
    expect(across('X-06') / pxPerMm).toBeCloseTo(150, 0);
    expect(across('S-18D') / pxPerMm).toBeCloseTo(53, 0);
    expect(across('U-1') / pxPerMm).toBeCloseTo(58, 0);
  });

  test('many of one kind are drawn up to four and said by number', () => {
    const tether = bagLayout(plan, outing, 500).bags[0]?.items.find(({ id }) => id === 'T-07');
    expect(tether).toMatchObject({ drawn: 4, label: 'T-07 × 7', quantity: 7 });
  });
});

describe('how full a bag is', () => {
  const bagOf = (id: string) => {
    const bag = plan.bags.get(id);
    if (bag === undefined) throw new Error(id);
    return bag;
  };

  test('each limit is said with what lies against it, and what passes it', () => {
    const fills = bagFills(plan, bagOf('SR-L'), outing, 'both');
    expect(fills.map(({ name, text }) => `${name}: ${text}`)).toEqual([
      'mass: 1.202 of 2.000 kg (2.65 of 4.40 lb)',
      'volume: 0.530 of 1.000 L (32.3 of 61.0 in³)',
      'pieces: 11 of 6',
      'tether points: 8 of 3',
    ]);
    expect(fills.map(({ share }) => share)).toEqual([
      expect.closeTo(0.601),
      expect.closeTo(0.53),
      expect.closeTo(11 / 6),
      expect.closeTo(8 / 3),
    ]);
  });

  test('a bag without limits has no bars, and an item without a volume makes the sum a least', () => {
    const fills = bagFills(plan, bagOf('SR-S'), outing, 'si');
    expect(fills.every(({ share }) => share === null)).toBe(true);
    expect(fills[1]?.text).toBe('at least 0.300 L, no limit given; 1 without a volume');
  });
});

describe('the bags on screen', () => {
  test('a piece is chosen by pointer and by keyboard, and shows that it is', async () => {
    const onSelect = vi.fn();
    const screen = await shown(
      <BagDrawing plan={plan} outing={outing} selected="X-06" onSelect={onSelect} units="both" />,
    );
    const socket = screen.getByRole('button', { name: 'S-18D, Socket 9/16 in deep, 2 pieces' });
    await socket.click();
    expect(onSelect).toHaveBeenLastCalledWith('S-18D', 'SR-L');
    const chosen = screen.getByRole('button', { name: 'X-06, X-06, 1 piece' });
    await expect.element(chosen).toHaveAttribute('aria-pressed', 'true');
    (screen.getByRole('button', { name: /^W-10/ }).element() as SVGElement).focus();
    await userEvent.keyboard('{Enter}');
    expect(onSelect).toHaveBeenLastCalledWith('W-10', 'SR-S');
  });

  test('every piece’s target is at least 24 px each way', async () => {
    const screen = await shown(<BagDrawing plan={plan} outing={outing} onSelect={() => undefined} units="both" />, {
      widthPx: 400,
    });
    const sizes = [...screen.container.querySelectorAll('[data-item] rect')].map((rect) =>
      rect.getBoundingClientRect(),
    );
    expect(sizes).toHaveLength(6);
    expect(sizes.filter(({ width, height }) => width < 24 || height < 24)).toEqual([]);
  });

  test('says that it is an arrangement and no proof, and which piece is drawn at a guess', async () => {
    const screen = await shown(<BagDrawing plan={plan} outing={outing} units="both" />);
    await expect.element(screen.getByText(/not a proof that they lie so in the bag/)).toBeInTheDocument();
    await expect.element(screen.getByText(/Size not given, drawn at a guess: W-10\./)).toBeInTheDocument();
    await expect.element(screen.getByText('11 of 6, over the limit')).toBeInTheDocument();
  });

  test('an outing that takes nothing says so', async () => {
    const screen = await shown(<BagDrawing plan={plan} outing={{ ...outing, items: [] }} units="both" />);
    await expect.element(screen.getByText('No piece is taken on this outing.')).toBeInTheDocument();
  });
});
