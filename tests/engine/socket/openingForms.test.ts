import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { OpeningSize } from '../../../renderer/engine/plan/resolved.ts';
import { openingFormsFor, openingGoesOnHead } from '../../../renderer/engine/socket/index.ts';
import { headForms, openingForms, type HeadForm, type OpeningForm } from '../../../shared-types/plan.ts';

/** Rule 2 of command `bag`, as the headless contract writes it. */
const pairs: readonly [HeadForm, OpeningForm][] = [
  ['hex', 'hex6'],
  ['hex', 'hex12'],
  ['heavy-hex', 'hex6'],
  ['heavy-hex', 'hex12'],
  ['nut', 'hex6'],
  ['nut', 'hex12'],
  ['twelve-point', 'hex12'],
  ['hex-socket', 'hexKey'],
  ['hexalobular', 'hexalobular'],
  ['square', 'square'],
];
const acts = (head: HeadForm, opening: OpeningForm): boolean => pairs.some(([h, o]) => h === head && o === opening);
const sizeOf = (head: HeadForm): { mm: number } | { text: string } =>
  head === 'hexalobular' ? { text: 'T30' } : { mm: 13 };

describe('an opening of the same size', () => {
  const every = headForms.flatMap((head) => openingForms.map((opening) => [head, opening] as const));

  it.each(every)('%s head, %s opening', (headForm, openingForm) => {
    const size = sizeOf(headForm);
    expect(openingGoesOnHead({ headForm, acrossFlats: size, openingForm, size })).toBe(acts(headForm, openingForm));
  });

  it('is offered six-point first', () => {
    expect(openingFormsFor('hex')).toEqual(['hex6', 'hex12']);
    for (const head of headForms) {
      expect(openingFormsFor(head)).toEqual(pairs.filter(([h]) => h === head).map(([, opening]) => opening));
    }
  });
});

describe('a hexagon of another size', () => {
  it.each([
    [11.1125, 11.1125, true], // 7/16 in
    [11.1125, 11.11, true], // as it is often typed
    [11.1125, 11.1225, true], // 0.01 mm, ends included
    [13, 13.01, true],
    [13, 12.99, true],
    [13, 13.0101, false],
    [27, 26.9875, false], // 1-1/16 in on 27 mm: near, and not the same name
    [8, 7.9375, false], // 5/16 in on 8 mm
    [16, 15.875, false], // 5/8 in on 16 mm
    [50, 50.00625, true], // the tolerance alone cannot tell 1-31/32 in, which no table has
  ])('%s mm head, %s mm opening: %s', (head, opening, goesOn) => {
    const x = { headForm: 'hex', acrossFlats: { mm: head }, openingForm: 'hex6', size: { mm: opening } } as const;
    expect(openingGoesOnHead(x)).toBe(goesOn);
  });

  it('goes on the same way whichever of the two is the larger', () => {
    const mm = fc.double({ min: 1, max: 100, noNaN: true });
    fc.assert(
      fc.property(mm, fc.double({ min: -0.03, max: 0.03, noNaN: true }), (size, more) => {
        const on = (a: number, b: number): boolean =>
          openingGoesOnHead({ headForm: 'nut', acrossFlats: { mm: a }, openingForm: 'hex12', size: { mm: b } });
        expect(on(size, size + more)).toBe(on(size + more, size));
        if (Math.abs(more) > 0.0101) expect(on(size, size + more)).toBe(false);
        if (Math.abs(more) < 0.0099) expect(on(size, size + more)).toBe(true);
      }),
    );
  });
});

describe('a hexalobular size', () => {
  const on = (head: { text: string } | { mm: number }, size: { text: string } | { mm: number }): boolean =>
    openingGoesOnHead({ headForm: 'hexalobular', acrossFlats: head, openingForm: 'hexalobular', size });

  it('is compared as text', () => {
    expect(on({ text: 'T30' }, { text: 'T30' })).toBe(true);
    expect(on({ text: 'T30' }, { text: 'T3' })).toBe(false);
    expect(on({ text: 'T30' }, { text: 't30' })).toBe(false);
  });

  it('is never a length', () => {
    expect(on({ mm: 5.6 }, { mm: 5.6 })).toBe(false);
    expect(on({ text: 'T30' }, { mm: 5.6 })).toBe(false);
    expect(on({ mm: 5.6 }, { text: 'T30' })).toBe(false);
  });

  it('fits no other form, where a text is no size', () => {
    const text = { text: '13' };
    const onHex = (acrossFlats: OpeningSize, size: OpeningSize) =>
      openingGoesOnHead({ headForm: 'hex', acrossFlats, openingForm: 'hex6', size });
    expect(onHex(text, text)).toBe(false);
    expect(onHex({ mm: 13 }, text)).toBe(false);
    expect(onHex(text, { mm: 13 })).toBe(false);
  });
});
