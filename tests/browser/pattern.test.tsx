/** Patterns of an interface: typed, drawn to scale beside the form, placed by pointer and by keys, ordered, kept. */
import { describe, expect, it } from 'vitest';
import { page, userEvent } from 'vitest/browser';
import type { RecordOf } from '../../shared-types/records/index.ts';
import { readPattern, positionNames } from '../../renderer/engine/pattern/index.ts';
import { shownPlan } from './fixtures/plans.ts';
import { byCode, button, chooseIn, field, heading, openTask, save } from './support/openTask.tsx';

const rock: RecordOf<'sites'> = { id: 'rock', rev: 0, code: 'SRL', name: 'Sea rock light' };
const flange: RecordOf<'interfaces'> = {
  ...{ id: 'flange', rev: 0, site: 'rock', code: 'B', name: 'flange bolt', kind: 'fastener', count: 4 },
  fastener: 'F1',
  access: { depth: '4 in', clearDiameter: '1 in', swingDeg: 60, handleRadius: '8 in' },
};

async function openSites(...interfaces: RecordOf<'interfaces'>[]) {
  const opened = await openTask(shownPlan(), '#/steps/tighten');
  await opened.store.commit({
    action: 'add-site',
    title: 'A site',
    proposals: [{ table: 'sites', put: rock }, ...interfaces.map((put) => ({ table: 'interfaces' as const, put }))],
  });
  window.location.hash = `#/sites/rock/${interfaces[0]?.id ?? ''}`;
  return opened;
}

const figure = (name = 'Pattern of interface B') => page.getByRole('figure', { name });

/** By the drawing's own scale bar. */
function mmPerPx(): number {
  const bar = figure().element().querySelector('[data-scale]');
  const [, said = '', unit = ''] = /^([\d.]+) (mm|in)$/.exec(bar?.getAttribute('data-scale') ?? '') ?? [];
  const barPx = [...(bar?.querySelectorAll('rect') ?? [])].reduce((sum, one) => sum + one.width.baseVal.value, 0);
  return (Number(said) * (unit === 'in' ? 25.4 : 1)) / barPx;
}

/** What the drawing says, read out of it: mm from the first position. */
function drawnMm(): { position: string; xMm: number; yMm: number }[] {
  const svg = figure().element().querySelector('svg');
  const scale = mmPerPx();
  const marks = [...(svg?.querySelectorAll('[data-position]') ?? [])].map((mark) => {
    const circle = mark.querySelector('circle');
    return {
      position: mark.getAttribute('data-position') ?? '',
      x: circle?.cx.baseVal.value ?? Number.NaN,
      y: circle?.cy.baseVal.value ?? Number.NaN,
    };
  });
  const first = marks[0] ?? { x: 0, y: 0 };
  return marks.map(({ position, x, y }) => ({
    position,
    xMm: (x - first.x) * scale,
    yMm: (first.y - y) * scale,
  }));
}

function fromFirst(text: string, count: number) {
  const points = readPattern(text, positionNames(count));
  const [first] = points;
  return points.map(({ position, xMm, yMm }) => ({
    position,
    xMm: xMm - (first?.xMm ?? 0),
    yMm: yMm - (first?.yMm ?? 0),
  }));
}

function expectDrawn(expected: ReturnType<typeof fromFirst>): void {
  const drawn = drawnMm();
  expect(drawn.map(({ position }) => position)).toEqual(expected.map(({ position }) => position));
  for (const [at, { xMm, yMm }] of expected.entries()) {
    expect(drawn[at]?.xMm).toBeCloseTo(xMm, 3);
    expect(drawn[at]?.yMm).toBeCloseTo(yMm, 3);
  }
}

describe('the pattern of an interface', () => {
  it('is typed, drawn to scale, ordered by a rule, moved by keys, and kept as one act', async () => {
    const { store } = await openSites(flange);
    await userEvent.click(button('Edit interface'));
    await userEvent.fill(field('Count'), '12');
    await chooseIn('Pattern', 'Circle');
    await userEvent.fill(field('Diameter (with unit)'), '240 mm');
    await userEvent.fill(field('First angle, optional'), '15 deg');
    await expect.element(figure()).toBeVisible();
    expectDrawn(fromFirst('circle 240 mm from 15 deg', 12));
    await userEvent.click(button('Propose a star'));
    await expect.element(page.getByText(/^Star: begin at the first position/)).toBeVisible();
    await expect.element(field('Order of tightening, optional')).toHaveValue('1, 7, 4, 10, 2, 8, 5, 11, 3, 9, 6, 12');
    const list = page.getByRole('listbox', { name: 'Order of tightening, one by one' });
    (list.element() as HTMLElement).focus();
    await userEvent.keyboard('{Home}{ArrowDown}{Alt>}{ArrowDown}{/Alt}');
    await expect.element(field('Order of tightening, optional')).toHaveValue('1, 4, 7, 10, 2, 8, 5, 11, 3, 9, 6, 12');
    await userEvent.fill(field('Order of tightening, optional'), '1 7 4 10 2 8 5 11 3 9 6 6');
    await save();
    await expect.element(page.getByText(/lacks position 12; has position 6 more than once/).first()).toBeVisible();
    await userEvent.fill(field('Order of tightening, optional'), '1 7 4 10 2 8 5 11 3 9 6 12');
    await save();
    await expect.element(heading('B · flange bolt')).toBeVisible();
    expect((await byCode(store, 'interfaces')).get('B')).toMatchObject({
      count: 12,
      pattern: 'circle 240 mm from 15 deg',
      order: ['1', '7', '4', '10', '2', '8', '5', '11', '3', '9', '6', '12'],
    });
    expectDrawn(fromFirst('circle 240 mm from 15 deg', 12));
    const boxes = [...figure().element().querySelectorAll('[data-position]')].map((one) =>
      one.getAttribute('aria-label'),
    );
    expect(boxes).toContain('Position 7, 2 in the order');
    await expect.element(figure()).toHaveTextContent(/tightens clockwise/);
  });

  it('is placed freely by pointer and by keys alone', async () => {
    const { store } = await openSites(flange);
    await userEvent.click(button('Edit interface'));
    await chooseIn('Pattern', 'Free, each at its own place');
    await userEvent.click(button('Add place'));
    await expect.element(field('Place 1, right (with unit)')).toHaveValue('0 mm');
    const mark = (position: string) => figure().getByRole('button', { name: `Position ${position}` });
    (mark('1').element() as unknown as SVGGElement).focus();
    await userEvent.keyboard('+');
    await expect.element(mark('2')).toBeVisible();
    await userEvent.fill(field('Place 2, right (with unit)'), '60 mm');
    await userEvent.fill(field('Place 2, up (with unit)'), '0 mm');
    (mark('2').element() as unknown as SVGGElement).focus();
    await userEvent.keyboard('{Alt>}{ArrowUp}{/Alt}{Alt>}{Shift>}{ArrowLeft}{/Shift}{/Alt}');
    await expect.element(field('Place 2, right (with unit)')).toHaveValue('50 mm');
    await expect.element(field('Place 2, up (with unit)')).toHaveValue('1 mm');
    const svg = figure().element().querySelector('svg');
    const box = svg?.querySelector('[data-field]');
    const at = { x: 60, y: 70 };
    await userEvent.click(page.elementLocator(box as Element), { position: at });
    await expect.element(mark('3')).toBeVisible();
    const text = '1: 0 mm, 0 mm; 2: 50 mm, 1 mm';
    await save();
    await expect.element(heading('B · flange bolt')).toBeVisible();
    const kept = (await byCode(store, 'interfaces')).get('B');
    expect(kept?.count).toBe(3);
    expect(kept?.pattern).toMatch(new RegExp(`^${text}; 3: -\\d+ mm, \\d+ mm$`));
    expectDrawn(fromFirst(kept?.pattern ?? '', 3));
  });

  it('is drawn the other way round where the worker sees it from behind', async () => {
    const text = 'grid 2 by 3, 40 mm by 30 mm';
    await openSites({ ...flange, count: 6, pattern: text, mirrored: true });
    await expect.element(figure()).toHaveTextContent(/as the worker sees it, from behind/);
    await expect.element(figure()).toHaveTextContent(/tightens counterclockwise/);
    expectDrawn(fromFirst(text, 6).map((point) => ({ ...point, xMm: 0 - point.xMm })));
    const dimensions = [...figure().element().querySelectorAll('[data-dimension]')].map((one) =>
      one.getAttribute('data-dimension'),
    );
    // The line of the first is as long as its figure by the drawing’s own scale.
    const drawn = figure().element().querySelector('[data-dimension] path')?.getAttribute('d') ?? '';
    const [, from = 0, to = 0] = (/^M([\d.]+) [\d.]+H([\d.]+)$/.exec(drawn) ?? []).map(Number);
    expect((to - from) * mmPerPx()).toBeCloseTo(40, 3);
    expect(dimensions).toEqual(['40 mm (1.575 in)', '30 mm (1.181 in)']);
  });
});

describe('a hole that changes its width', () => {
  it('is typed in stretches and drawn with its steps to scale', async () => {
    const { store } = await openSites(flange);
    await userEvent.click(button('Edit interface'));
    await userEvent.click(button('Add stretch of another width'));
    await userEvent.fill(field('Stretch 1, from the mouth to (with unit)'), '1.5 in');
    await userEvent.fill(field('Stretch 1, clear diameter (with unit)'), '2 in');
    await save();
    await expect.element(heading('B · flange bolt')).toBeVisible();
    expect((await byCode(store, 'interfaces')).get('B')?.access).toMatchObject({
      profile: [{ to: '1.5 in', clearDiameter: '2 in' }],
    });
    const drawing = page.getByRole('figure', { name: 'Access of interface B' });
    await expect.element(drawing).toHaveTextContent(/⌀ 2 in \(51 mm\) clear to 1.5 in \(38.1 mm\)/);
    const bore = drawing.element().querySelector('[data-of=bore]')?.getAttribute('d') ?? '';
    const at = [...bore.matchAll(/[ML]([\d.]+) ([\d.]+)/g)].map(([, x, y]) => [Number(x), Number(y)]);
    const [, mouth, step, narrow, head] = at;
    // Read out of the drawing: 1.5 in of 4 in of depth; half of 2 in less half of 1 in as much as half of 1 in.
    const share = ((step?.[0] ?? 0) - (mouth?.[0] ?? 0)) / ((head?.[0] ?? 0) - (mouth?.[0] ?? 0));
    expect(share).toBeCloseTo(1.5 / 4, 3);
    const inch = ((step?.[0] ?? 0) - (mouth?.[0] ?? 0)) / 1.5;
    expect(Math.abs((narrow?.[1] ?? 0) - (step?.[1] ?? 0)) / inch).toBeCloseTo(0.5, 2);
  });
});

describe('a coupling', () => {
  it('says what works it, how far it turns and how it is when done, and no torque', async () => {
    const { store } = await openSites({ ...flange, kind: 'coupling', fastener: undefined, access: undefined });
    await userEvent.click(button('Edit interface'));
    await chooseIn('By hand, optional', 'Yes');
    await userEvent.fill(field('Quarter turns, optional'), '1');
    await userEvent.fill(field('How it is when done, optional'), 'locked, both marks in line');
    await save();
    await expect.element(heading('B · flange bolt')).toBeVisible();
    await expect.element(page.getByText('by hand, a quarter turn')).toBeVisible();
    await expect.element(page.getByText('locked, both marks in line')).toBeVisible();
    expect((await byCode(store, 'interfaces')).get('B')).toMatchObject({ byHand: true, quarterTurns: 1 });
  });
});
