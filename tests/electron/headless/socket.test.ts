import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { SocketAnswer } from '../../../renderer/engine/socket/index.ts';
import { refusalFrom, resultOf, told } from './inProcess.ts';

const socket = (...args: string[]): Promise<SocketAnswer> => resultOf('socket', ...args);

describe('bagwright socket', () => {
  it('has every field of the contract', async () => {
    const found = await socket('1/4-28', '--head', 'hex');
    expect(found).toMatchObject({
      nominal: '7/16 in',
      nominalMm: 11.1125,
      head: { acrossFlatsMaxMm: 11.1252, acrossFlatsMinMm: 10.8712, acrossCornersMinMm: 12.3952 },
      opening: { minMm: 11.176, maxMm: 11.3284, source: { number: 'ASME/ANSI B18.2.2', obtained: 'text found' } },
      freeAngleDeg: { min: expect.any(Number) as number, max: expect.any(Number) as number },
      slips: false,
    });
    for (const field of ['title', 'number', 'edition', 'table', 'obtained'])
      expect(found.source).toHaveProperty(field, expect.any(String));
    for (const entry of found.near)
      for (const field of ['nominal', 'nominalMm', 'goesOn', 'clearanceMaxMm', 'freeAngleMaxDeg'])
        expect(entry).toHaveProperty(field);
    expect(found.near.map(({ nominal }) => nominal)).toEqual(['11 mm', '7/16 in']);
  });

  it('says at the limits what practice calls equal', async () => {
    const verdicts = async (thread: string, standard?: string) =>
      (await socket(thread, '--head', 'hex', ...(standard === undefined ? [] : ['--standard', standard]))).near.map(
        ({ nominal, goesOn }) => [nominal, goesOn],
      );
    expect(await verdicts('M5')).toContainEqual(['5/16 in', true]);
    expect(await verdicts('M10')).toEqual([['5/8 in', false]]);
    expect(await verdicts('M16')).toContainEqual(['15/16 in', false]);
    expect(await verdicts('M22', 'DIN 931')).toContainEqual(['1-1/4 in', false]);
    expect(await verdicts('M12', 'DIN 931')).toContainEqual(['3/4 in', true]);
    expect(await verdicts('M18')).toContainEqual(['1-1/16 in', true]);
  });

  it.each([
    ['ISO 4014', 'ISO 4014'],
    ['iso4014', 'ISO 4014'],
    ['ISO 4014:2011', 'ISO 4014'],
    ['ISO 272', 'ISO 272'],
    ['Din 931', 'DIN 931 / DIN 933 against ISO 4014 / ISO 4017'],
    ['ISO 4017', 'DIN 931 / DIN 933 against ISO 4014 / ISO 4017'],
  ])('takes the standard "%s"', async (standard, number) => {
    expect((await socket('M10', '--head', 'hex', '--standard', standard)).source.number).toBe(number);
  });

  it('takes its options before the thread as well', async () => {
    expect(await socket('--standard', 'ISO 272', '--head', 'nut', 'M18')).toMatchObject({ nominal: '27 mm' });
  });

  it.each([
    [['M10'], 'usage', 'head', /--head is missing/],
    [['M10', '--head', 'square'], 'usage', 'head', /one of hex, heavy-hex, nut/],
    [['M10', '--head', 'HEX'], 'usage', 'head', /one of hex/],
    [['--head', 'hex'], 'usage', 'thread', /thread is missing/],
    [['M10', 'M12', '--head', 'hex'], 'usage', undefined, /too many/],
    [['M10', '--head', 'hex', '--document', 'ISO 272'], 'usage', undefined, /--document is unknown/],
    [['M10', '--head', 'hex', '--standard'], 'usage', undefined, /needs a value/],
    [['M10x', '--head', 'hex'], 'unreadable-thread', 'thread', /pitch/],
    [['', '--head', 'hex'], 'unreadable-thread', 'thread', /./],
    [['M10', '--head', 'twelve-point'], 'not-held', 'head', /hex, heavy-hex, nut and hex-socket/],
    [['M10', '--head', 'hex', '--standard', 'ISO 691'], 'not-held', 'standard', /ISO 4014, .*DIN 931/],
    [['M10', '--head', 'hex', '--standard', ''], 'not-held', 'standard', /Held are/],
    [['M10', '--head', 'hex', '--standard', 'ISO 4032'], 'not-held', 'standard', /hex heads of "ISO 4032"/],
    [['M64', '--head', 'hex', '--standard', 'ISO 4014'], 'not-held', 'thread', /M24/],
    [['M6', '--head', 'hexalobular'], 'not-held', 'thread', /T30/],
    [['1/4-20', '--head', 'nut'], 'not-held', 'thread', /nut/],
    [['9/16-12', '--head', 'heavy-hex'], 'not-held', 'thread', /5\/8/],
  ])('%j is refused as %s of the %s', async (args, code, field, words) => {
    const refused = await refusalFrom('socket', ...args);
    expect(refused.code).toBe(code);
    expect(refused.field).toBe(field);
    expect(refused.message).toMatch(words);
  });

  it('an object is no thread and no head', async () => {
    expect(await refusalFrom('socket', { thread: 'M10' }, '--head', 'hex')).toMatchObject({ code: 'usage' });
    expect(await refusalFrom('socket', 'M10', '--head', {})).toMatchObject({ code: 'usage', field: 'head' });
    expect(await refusalFrom('socket', 'M10', '--head', 'hex', '--standard', {})).toMatchObject({ code: 'usage' });
  });

  it('answers or refuses whatever is typed, and never fails', async () => {
    const heads = fc.constantFrom('hex', 'heavy-hex', 'nut', 'twelve-point', 'hex-socket', 'hexalobular');
    const odd = fc.oneof(
      fc.string({ unit: 'binary', maxLength: 30 }),
      fc.constantFrom(
        'M10',
        'T30',
        '1/4-28 UNF',
        '#10-32',
        'M1e3',
        'M-5',
        'M0',
        '0/0-1',
        '½-13',
        'M１０',
        '\u0000',
        'M10×1.25',
      ),
    );
    await fc.assert(
      fc.asyncProperty(odd, heads, fc.option(odd), async (thread, head, standard) => {
        const named = standard === null || standard.startsWith('--') ? [] : ['--standard', standard];
        const answer = await told<SocketAnswer>('socket', thread, '--head', head, ...named);
        if (answer.exit === 2) expect(answer.error.code).not.toBe('internal');
        else expect(answer.result.source.number).not.toBe('');
      }),
      { numRuns: 400 },
    );
  });
});
