import { describe, expect, it } from 'vitest';
import { z } from '../../../shared-types/schema.ts';
import { fieldText, readJson, refusalFromZod, rowFinder, rowOf } from '../../../renderer/engine/json/readJson.ts';

const text = `{
  "catalog": {
    "sockets": [
      { "id": "a",
        "length": "50 mm" },
      { "id": "b",

        "length": 12 }
    ],
    "odd name": { "a.b": [1, 2,
      3] }
  }
}`;

describe('the row of a field', () => {
  it.each([
    ['', 1],
    ['catalog', 2],
    ['catalog.sockets', 3],
    ['catalog.sockets[0]', 4],
    ['catalog.sockets[0].id', 4],
    ['catalog.sockets[0].length', 5],
    ['catalog.sockets[1]', 6],
    ['catalog.sockets[1].length', 8],
    ['catalog["odd name"]', 10],
    ['catalog["odd name"]["a.b"][2]', 11],
  ])('%j stands on row %d', (field, row) => {
    expect(rowOf(text, field)).toBe(row);
    expect(rowFinder(`\uFEFF${text}`)(field)).toBe(row);
  });

  it.each([
    ['catalog.sockets[0].innerDepth', 4],
    ['catalog.sockets[7].length', 3],
    ['outings', 1],
    ['catalog["odd name"]["x y"].z', 10],
  ])('%j, which is missing, is looked for on row %d, where its object begins', (field, row) => {
    expect(rowOf(text, field)).toBe(row);
  });

  it('no row is named in a text that is no JSON', () => {
    expect(rowOf('{"a":', 'a')).toBeUndefined();
  });

  it('a path of steps is written the way it is looked up', () => {
    expect(fieldText(['catalog', 'sockets', 2, 'length'])).toBe('catalog.sockets[2].length');
    expect(fieldText(['catalog', 'odd name', 'a.b', 0])).toBe('catalog["odd name"]["a.b"][0]');
  });
});

describe('what a schema finds wrong, in plain words', () => {
  const schema = z.strictObject({
    id: z.string().min(1),
    length: z.string({ error: ({ input }) => (typeof input === 'number' ? 'is a bare number' : undefined) }),
    count: z.int().min(1).max(9),
    form: z.enum(['hex6', 'hex12']),
    list: z.array(z.string()).min(1),
    band: z.union([z.string(), z.object({ min: z.string(), max: z.string() })]),
    tool: z.discriminatedUnion('kind', [z.object({ kind: z.literal('a') }), z.object({ kind: z.literal('b') })]),
    share: z.number().lt(1),
    flag: z.boolean().refine((value) => value, { error: 'cannot be false here' }),
  });
  const good = {
    id: 'x',
    length: '1 mm',
    count: 1,
    form: 'hex6',
    list: ['a'],
    band: 'x',
    tool: { kind: 'a' },
    share: 0.5,
    flag: true,
  };

  const cases: [object, string, string, string][] = [
    [{ id: '' }, 'id', 'wrong-shape', 'id: is empty'],
    [{ id: 5 }, 'id', 'wrong-shape', 'id: must be a text; it is the number 5'],
    [{ length: 12 }, 'length', 'ambiguous-quantity', 'length: is a bare number'],
    [{ length: null }, 'length', 'wrong-shape', 'length: must be a text; it is null'],
    [{ count: 1.5 }, 'count', 'wrong-shape', 'count: must be a whole number; it is the number 1.5'],
    [{ count: 0 }, 'count', 'out-of-range', 'count: must be at least 1; it is the number 0'],
    [{ count: 10 }, 'count', 'out-of-range', 'count: must be at most 9; it is the number 10'],
    [{ count: undefined }, 'count', 'missing-field', 'count: is missing'],
    [{ form: 'hex7' }, 'form', 'wrong-shape', 'form: must be "hex6" or "hex12"; it is the text "hex7"'],
    [{ list: [] }, 'list', 'wrong-shape', 'list: must have at least 1 entries; it has 0'],
    [{ list: ['a', 3] }, 'list[1]', 'wrong-shape', 'list[1]: must be a text; it is the number 3'],
    [{ band: 3 }, 'band', 'wrong-shape', 'band: must be a text or an object; it is the number 3'],
    [{ band: { min: '1' } }, 'band.max', 'missing-field', 'band.max: is missing'],
    [{ tool: { kind: 'c' } }, 'tool.kind', 'wrong-shape', 'tool.kind: must be "a" or "b"; it is the text "c"'],
    [{ share: 1 }, 'share', 'out-of-range', 'share: must be less than 1; it is the number 1'],
    [{ flag: false }, 'flag', 'contradiction', 'flag: cannot be false here'],
    [{ extra: 1 }, 'extra', 'wrong-shape', 'extra: is no field known here'],
  ];
  it.each(cases)('%j', (change, field, code, message) => {
    const input = JSON.parse(JSON.stringify({ ...good, ...change })) as unknown;
    const parsed = schema.safeParse(input);
    expect(parsed.success).toBe(false);
    if (parsed.success) return;
    const json = JSON.stringify(input, null, 1);
    const { refusal } = refusalFromZod(parsed.error, { file: 'p.json', text: json, input });
    expect(refusal).toMatchObject({ code, field, message, file: 'p.json', row: rowOf(json, field) });
    expect(refusal.rows).toBeUndefined();
  });

  const refusedBy = (asked: z.ZodType, input: unknown) => {
    const parsed = asked.safeParse(input);
    if (parsed.success) throw new Error('nothing was refused');
    return refusalFromZod(parsed.error, { input }).refusal;
  };

  it('of several shapes the nearest is taken: the one with the fewest faults', () => {
    const band = z.object({ min: z.string(), max: z.string() });
    const asked = z.object({ band: z.union([band.extend({ unit: z.string() }), band]) });
    const refusal = refusedBy(asked, { band: { min: '1' } });
    expect(refusal).toMatchObject({ code: 'missing-field', field: 'band.max' });
    expect(refusal.rows).toBeUndefined();
  });

  it('of several values and shapes all are named', () => {
    const asked = z.object({ form: z.union([z.literal('a'), z.number(), z.array(z.string()).min(2)]) });
    expect(refusedBy(asked, { form: true }).message).toBe('form: must be "a" or a number or a list; it is true');
  });

  it('a value is given where it is one, and no key for it where there is none', () => {
    expect(refusedBy(schema, { ...good, count: 0 })).toHaveProperty('value', 0);
    expect(refusedBy(schema, { ...good, id: undefined })).not.toHaveProperty('value');
    expect(refusedBy(schema, { ...good, id: { text: 'x' } })).not.toHaveProperty('value');
  });

  it('a schema’s own words for a limit leave it a limit', () => {
    const asked = z.object({ share: z.number().min(1, { error: 'cannot be below 1' }) });
    expect(refusedBy(asked, { share: 0 })).toMatchObject({ code: 'out-of-range', message: 'share: cannot be below 1' });
  });

  it('a fault below something empty is said of its place', () => {
    const asked = z.object({ gone: z.null() }).refine(() => false, { error: 'cannot be', path: ['gone', 'deep'] });
    const refusal = refusedBy(asked, { gone: null });
    expect(refusal).toEqual({ code: 'contradiction', message: 'gone.deep: cannot be', field: 'gone.deep' });
  });

  it('several faults come together, the first in front, each with its own row and value', () => {
    const input = readJson('{\n"id": 5,\n"count": 0\n}', { maxBytes: 100 });
    const parsed = z.object({ id: z.string(), count: z.number().min(1), form: z.string() }).safeParse(input);
    if (parsed.success) throw new Error('nothing was refused');
    const { refusal } = refusalFromZod(parsed.error, { text: '{\n"id": 5,\n"count": 0\n}', input });
    expect(refusal.rows?.map(({ code, row, field, value }) => ({ code, row, field, value }))).toEqual([
      { code: 'wrong-shape', row: 2, field: 'id', value: 5 },
      { code: 'out-of-range', row: 3, field: 'count', value: 0 },
      { code: 'missing-field', row: 1, field: 'form', value: undefined },
    ]);
    expect(refusal).toMatchObject({ field: 'id', row: 2 });
  });

  it('a fault of the whole input is said of the input', () => {
    const parsed = z.object({ id: z.string() }).safeParse([1]);
    if (parsed.success) throw new Error('nothing was refused');
    expect(refusalFromZod(parsed.error, { input: [1] }).refusal.message).toBe(
      'The input must be an object; it is a list.',
    );
  });
});
