import { describe, expect, test } from 'vitest';
import { BandFigure } from '../../renderer/components/BandFigure/BandFigure.tsx';
import { bandLayout, ticks, type BandInput } from '../../renderer/components/BandFigure/bandLayout.ts';
import { convertValue } from '../../renderer/engine/units/index.ts';
import { overlaps, shown, textBoxes } from './shown.tsx';

const ftLbf = (value: number): number => convertValue(value, 'lbf·ft', 'N·m');
const band = (min: number, max: number) => ({ minNm: ftLbf(min), maxNm: ftLbf(max) });

const set: BandInput = {
  callout: band(30, 35),
  applied: band(31.2, 33.8),
  setting: { value: 32.5, unit: 'lbf·ft' },
  running: null,
  runningIncluded: true,
  unit: 'lbf·ft',
  units: 'both',
};

describe('bands of torque', () => {
  test('limits read as they were typed, with no digit lost on the way through N·m', () => {
    const callout = { minNm: convertValue(1100, 'lbf·in', 'N·m'), maxNm: convertValue(1300, 'lbf·in', 'N·m') };
    const layout = bandLayout(
      { ...set, callout, applied: null, setting: null, unit: 'lbf·in', units: 'as-written' },
      500,
    );
    expect(layout.rows[0]?.lines).toEqual(['1100–1300 lbf·in']);
  });

  test('boxes and bars lie on the axis where their values do', () => {
    const layout = bandLayout(set, 600);
    const [first, second] = layout.ticks;
    if (first === undefined || second === undefined) throw new Error('The axis has ticks.');
    const pxPerUnit = (second.px - first.px) / (Number(second.text) - Number(first.text));
    const valueAt = (px: number): number => Number(first.text) + (px - first.px) / pxPerUnit;
    const callout = layout.rows.find(({ kind }) => kind === 'callout');
    const applied = layout.rows.find(({ kind }) => kind === 'applied');
    expect(valueAt(callout?.fromPx ?? 0)).toBeCloseTo(30, 6);
    expect(valueAt(callout?.toPx ?? 0)).toBeCloseTo(35, 6);
    expect(valueAt(applied?.fromPx ?? 0)).toBeCloseTo(31.2, 6);
    expect(valueAt(applied?.markPx ?? 0)).toBeCloseTo(32.5, 6);
    expect(applied?.lines).toEqual(['32.5 set:', '31.2–33.8 lbf·ft']);
  });

  test('running torque to be added stands apart, and the wrench’s band is the sum, ends against each other', () => {
    const layout = bandLayout({ ...set, running: band(0.8, 1.2), runningIncluded: false }, 600);
    expect(layout.rows.map(({ kind }) => kind)).toEqual(['callout', 'wrench', 'applied', 'running']);
    expect(layout.rows[1]?.lines[0]).toBe('31.2–35.8 lbf·ft');
    expect(layout.rows[3]?.name).toBe('running, added');
    expect(layout.rows[3]?.lines[0]).toBe('0.8–1.2 lbf·ft');
    expect(layout.ticks[0]?.text).toBe('0');
  });

  test('running torque within the callout is a part of it and moves nothing', () => {
    const layout = bandLayout({ ...set, running: band(0.8, 6.7) }, 600);
    expect(layout.rows.map(({ name }) => name)).toEqual(['callout', 'applied', 'of it running']);
  });

  test('a running torque wider than the callout leaves an empty band, and says so', () => {
    const layout = bandLayout({ ...set, running: band(1, 12), runningIncluded: false }, 600);
    expect(layout.rows[1]?.lines).toEqual(['empty band']);
  });

  test.each([
    [0, 41, [0, 10, 20, 30, 40]],
    [2260, 2540, [2300, 2400, 2500]],
    [11.6, 15.4, [12, 13, 14, 15]],
    [0.03, 0.071, [0.03, 0.04, 0.05, 0.06, 0.07]],
  ])('ticks from %s to %s are round: %s', (low, high, expected) => {
    const found = ticks(low, high);
    expect(found).toHaveLength(expected.length);
    found.forEach((value, index) => expect(value).toBeCloseTo(expected[index] ?? 0, 9));
  });

  test.each([{ widthPx: 300 }, { widthPx: 480 }, { widthPx: 900 }])(
    'texts do not meet at $widthPx px',
    async ({ widthPx }) => {
      const screen = await shown(<BandFigure {...set} running={band(0.8, 1.2)} runningIncluded={false} />, { widthPx });
      await expect.poll(() => screen.container.querySelector('svg')?.getAttribute('width')).not.toBe('420');
      const svg = screen.container.querySelector('svg');
      if (svg === null) throw new Error('There is no figure.');
      const boxes = textBoxes(svg);
      expect(overlaps(boxes)).toEqual([]);
      expect(boxes.filter(({ left, right }) => left < 0 || right > svg.viewBox.baseVal.width)).toEqual([]);
      expect(svg.querySelector('title')?.textContent).toContain('callout 30–35 lbf·ft (40.7–47.4 N·m)');
    },
  );
});
