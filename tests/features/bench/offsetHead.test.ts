import { describe, expect, it } from 'vitest';
import { offsetHeadLayout } from '../../../renderer/features/bench/offsetHeadLayout.ts';
import { textWidthPx } from '../../../renderer/components/StackDrawing/labels.ts';

const angles = Array.from({ length: 25 }, (_, index) => -180 + 15 * index);
const heads = [12, 50, 76, 150];

describe('the drawing of an offset head', () => {
  it.each(angles)('at %i° keeps words, arc and head within its frame, and its two dimensions apart', (angleDeg) => {
    for (const headMm of heads) {
      const layout = offsetHeadLayout({ leverMm: 394, headMm, angleDeg, unit: 'mm' });
      const boxes = layout.texts.map(({ x, y, text, anchor }) => {
        const width = textWidthPx(text);
        const left = anchor === 'start' ? x : anchor === 'end' ? x - width : x - width / 2;
        return { text, left, right: left + width, top: y - 11, bottom: y + 3 };
      });
      for (const { left, right, top, bottom } of boxes) {
        expect(left).toBeGreaterThanOrEqual(0);
        expect(right).toBeLessThanOrEqual(layout.widthPx);
        expect(top).toBeGreaterThanOrEqual(0);
        expect(bottom).toBeLessThanOrEqual(layout.heightPx);
      }
      const [lever, offset, angle, force] = boxes;
      const apart = (a = boxes[0], b = boxes[0]): boolean =>
        a !== undefined &&
        b !== undefined &&
        (a.right < b.left || b.right < a.left || a.bottom < b.top || b.bottom < a.top);
      expect([headMm, apart(lever, offset)]).toEqual([headMm, true]);
      expect([headMm, apart(force, offset)]).toEqual([headMm, true]);
      expect([headMm, apart(angle, offset)]).toEqual([headMm, true]);
      const { fastener } = layout;
      expect(fastener.x).toBeGreaterThan(20);
      expect(fastener.x).toBeLessThan(layout.widthPx - 20);
      expect(fastener.y).toBeGreaterThan(20);
      expect(fastener.y).toBeLessThan(layout.heightPx - 20);
    }
  });

  it('draws lever and offset to one scale', () => {
    const { hand, square, fastener } = offsetHeadLayout({ leverMm: 400, headMm: 100, angleDeg: 60, unit: 'mm' });
    const lever = square.x - hand.x;
    const offset = Math.hypot(fastener.x - square.x, fastener.y - square.y);
    expect(offset / lever).toBeCloseTo(0.25, 9);
    expect(Math.atan2(square.y - fastener.y, fastener.x - square.x)).toBeCloseTo(Math.PI / 3, 9);
  });
});
