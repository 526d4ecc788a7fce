import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { LockingLimits } from '../../../renderer/engine/locking/index.ts';
import { refusalFrom, resultOf, told } from './inProcess.ts';

interface One extends LockingLimits {
  thread: string;
  rules: { document: string; rule: string }[];
  wrenchTorque?: { document: string; running: string; wrenchNm: { min: number; max: number } | null }[];
  caution: string;
}

interface Listed {
  limits: LockingLimits[];
  note?: string;
}

const limits = (...args: string[]): Promise<One> => resultOf('limits', ...args);

describe('bagwright limits', () => {
  it('has every field of the contract, and null where the document prints nothing', async () => {
    const found = await limits('1/4-28', '--locking', 'MIL-DTL-45916C');
    expect(found).toMatchObject({
      runningMaxNm: expect.closeTo(3.389_544_870_828_501, 12) as number,
      breakawayMinNm: expect.closeTo(0.395_446_901_596_658, 12) as number,
      reusedMinNm: null,
    });
    for (const field of ['title', 'number', 'edition', 'table', 'obtained'])
      expect(found.source).toHaveProperty(field, expect.any(String));
    expect(found.caution).toContain('Verify before use');
  });

  it.each([
    ['MIL-DTL-45916C', 'MIL-DTL-45916C'],
    ['mil-dtl-45916', 'MIL-DTL-45916C'],
    ['MIL-N-25027', 'MIL-DTL-45916C'],
    ['NASM 25027', 'MIL-DTL-45916C'],
    ['nasm25027', 'MIL-DTL-45916C'],
    ['TM 55-1520-240-23-1', 'TM 55-1520-240-23-1'],
    ['TM9-6115-604-34', 'TM 9-6115-604-34'],
  ])('takes the document "%s"', async (document, number) => {
    expect((await limits('1/4-28', '--locking', document)).source.number).toBe(number);
  });

  it('gives the stricter of two kinds of nut at the top, and both under variants', async () => {
    const found = await limits('1/2-20', '--locking', 'TM 9-6115-604-34');
    expect(found.variants?.map(({ variant, reusedMinNm }) => [variant, reusedMinNm])).toEqual([
      ['all-metal', found.reusedMinNm],
      ['nylon', expect.closeTo(1.694_772_435_414_250_4, 12)],
    ]);
    expect(found.reusedMinNm).toBeCloseTo(2.259_696_580_552_334, 12);
  });

  it('lists every document that has the size, and none is no fault', async () => {
    const { limits: found, note } = await resultOf<Listed>('limits', '7/16-20 UNF');
    expect(found.map(({ source }) => source.number)).toHaveLength(5);
    expect(note).toBeUndefined();
    const none = await told<Listed>('limits', 'M10x1.25');
    expect(none).toMatchObject({ exit: 0, result: { limits: [], note: /No published value held/ } });
  });

  it('carries what each document says of running torque, so that the choice can be recorded', async () => {
    for (const args of [['M10'], ['M10', '--locking', 'ISO 2320'], ['M10x1.25']]) {
      const { rules } = await resultOf<One>('limits', ...args);
      expect(rules.length).toBeGreaterThanOrEqual(7);
      for (const rule of rules) expect(rule).toMatchObject({ source: { number: expect.any(String) as string } });
    }
  });

  it('sets the answers of three documents side by side where both torques are given', async () => {
    const { wrenchTorque } = await limits(
      '1/4-28',
      '--locking',
      'NASM25027',
      '--tightening',
      '60 lbf·in',
      '--running',
      '10 lbf·in',
    );
    expect(wrenchTorque?.map(({ document, running }) => [document, running])).toEqual([
      ['FAA AC 43.13-1B', 'added'],
      ['NASA TM-106943', 'added'],
      ['TB 43-0218', 'ignored'],
    ]);
    expect(wrenchTorque?.[0]?.wrenchNm?.max).toBeCloseTo(70 * 0.112_984_829_027_616_7, 12);
    expect(await limits('1/4-28', '--locking', 'NASM25027')).not.toHaveProperty('wrenchTorque');
  });

  it.each([
    [[], 'usage', 'thread', /thread is missing/],
    [['1/4-28', '--locking'], 'usage', undefined, /needs a value/],
    [['1/4-28', '--document', 'x'], 'usage', undefined, /--document is unknown here; known are --locking/],
    [['1/4-28', '--running', '3 N·m'], 'usage', undefined, /together or not at all/],
    [['1/4-28', '--tightening', '3 N·m'], 'usage', undefined, /together or not at all/],
    [['1/4-28', '--tightening', '3', '--running', '1 N·m'], 'ambiguous-quantity', 'tightening', /no unit/],
    [['1/4-28', '--tightening', '3 mm', '--running', '1 N·m'], 'wrong-kind', 'tightening', /length/],
    [['1/4-28', '--tightening', '3 N·m', '--running', '-1 N·m'], 'out-of-range', undefined, /at least 0/],
    [['1/4-28', '--tightening', '0 N·m', '--running', '1 N·m'], 'out-of-range', undefined, /above 0/],
    [['1/4-28 UNX'], 'unreadable-thread', 'thread', /./],
    [['1/4-28', '--locking', 'ISO 9999'], 'not-held', 'locking', /MIL-DTL-45916C.*ISO 2320/],
    [['1/4-28', '--locking', 'TB 43-0218'], 'not-held', 'locking', /Held are/],
    [['M10x1.25', '--locking', 'ISO 2320'], 'not-held', 'thread', /M8x1, M10/],
    [['3/8-16', '--locking', 'AC 43.13-1B'], 'not-held', 'thread', /7\/16-14/],
  ])('%j is refused as %s of the %s', async (args, code, field, words) => {
    const refused = await refusalFrom('limits', ...args);
    expect(refused.code).toBe(code);
    expect(refused.field).toBe(field);
    expect(refused.message).toMatch(words);
  });

  it('knows a document whatever its spaces and case, and no other for it', async () => {
    const letters = [...'MIL-DTL-45916C'];
    await fc.assert(
      fc.asyncProperty(
        fc.array(fc.tuple(fc.boolean(), fc.boolean()), { minLength: letters.length, maxLength: letters.length }),
        fc.integer({ min: 0, max: 9 }),
        async (ways, digit) => {
          const typed = letters
            .map((letter, index) => {
              const [isLower, isSpaced] = ways[index] ?? [false, false];
              return `${isLower ? letter.toLowerCase() : letter}${isSpaced ? ' ' : ''}`;
            })
            .join('');
          expect((await limits('1/4-28', '--locking', typed)).source.number).toBe('MIL-DTL-45916C');
          const other = await told('limits', '1/4-28', '--locking', `${typed}${digit}`);
          expect(other).toMatchObject({ exit: 2, error: { code: 'not-held' } });
        },
      ),
    );
  });

  it('answers or refuses whatever is typed, and never fails', async () => {
    const odd = fc.oneof(
      fc.string({ unit: 'binary', maxLength: 40 }),
      fc.constantFrom('', ' ', '1/4-28', '.2500-28 UNJF-3A', 'M8', 'ISO', '-', 'C', '45916', '\u2011'),
    );
    await fc.assert(
      fc.asyncProperty(odd, fc.option(odd), async (thread, document) => {
        const named = document === null || document.startsWith('--') ? [] : ['--locking', document];
        const answer = await told('limits', thread, ...named);
        if (answer.exit === 2) expect(answer.error.code).not.toBe('internal');
        else expect(answer.exit).toBe(0);
      }),
      { numRuns: 400 },
    );
  });
});
