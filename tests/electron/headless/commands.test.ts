import { describe, expect, it } from 'vitest';
import { RefusedError } from '../../../renderer/engine/errors.ts';
import type { Answer, CommandArgument, CommandIo } from '../../../electron/headless/command.ts';
import { csvInput, jsonInput } from '../../../electron/headless/input.ts';
import { parseArguments } from '../../../electron/headless/arguments.ts';
import { jsonText, refusalOf } from '../../../electron/headless/document.ts';
import { runCommand } from '../../../electron/headless/run.ts';

const encoder = new TextEncoder();

/** A command's surroundings with one file in them. */
function withFile(content: string, inBatch = false): CommandIo {
  return {
    readText: async () => content,
    readBytes: async () => encoder.encode(content),
    async *readLines() {
      for (const line of content.split('\n')) yield encoder.encode(line);
    },
    inBatch,
    run: runCommand,
  };
}
const nothing = withFile('');

async function answer(name: string, ...args: CommandArgument[]): Promise<Answer> {
  const given = await runCommand(name, args, nothing);
  if ('lines' in given) throw new Error('it answered in lines');
  return given;
}

async function refusal(run: () => unknown) {
  try {
    await run();
  } catch (error) {
    if (error instanceof RefusedError) return error.refusal;
    throw error;
  }
  throw new Error('nothing was refused');
}

async function batchLines(content: string): Promise<{ exit: number; line: string }[]> {
  const given = await runCommand('batch', ['x.jsonl'], withFile(content));
  if (!('lines' in given)) throw new Error('it did not answer in lines');
  const lines = [];
  for await (const line of given.lines) lines.push(line);
  return lines;
}

describe('convert', () => {
  it('has the fields of the contract and no other', async () => {
    const { exit, result } = await answer('convert', '540 in-lb', 'lbf-ft');
    expect(exit).toBe(0);
    expect(result).toEqual({
      value: expect.closeTo(45, 12) as number,
      unit: 'lbf·ft',
      from: { value: 540, unit: 'lbf·in' },
      kind: 'torque',
    });
  });

  it.each([
    ['1 MN·m', 'mN·m', 1e9],
    ['1 mNm', 'MNm', 1e-9],
    ['7/16 in', 'mm', 11.1125],
    ['1 rev', 'deg', 360],
    ['1 L', 'cm3', 1000],
    ['1 ksi', 'psi', 1000],
    ['16 oz', 'lb', 1],
    ['-40 N', 'lbf', -8.992357],
  ])('%s in %s', async (typed, unit, value) => {
    const { result } = await answer('convert', typed, unit);
    expect((result as { value: number }).value / value).toBeCloseTo(1, 6);
  });

  it.each([
    ['45 lbf·ft', 'mm', 'wrong-kind', 'unit', /quantity of torque in lbf·ft; "mm" is a unit of length/],
    ['45 lbf·ft', 'furlong', 'unknown-unit', 'unit', /"furlong".*unit of torque/],
    ['45 mm', 'furlong', 'unknown-unit', 'unit', /"furlong" is no unit.*"45 mm" is a quantity of length in mm/],
    ['1-1/8"', 'furlong', 'unknown-unit', 'unit', /"furlong" is no unit.*quantity of length in in\b/],
    ['4.9e-324 N', 'kN', 'not-finite', 'quantity', /too small/],
    ['1e-306 N', 'kN', 'not-finite', 'quantity', /1e-306 N is too small to hold in kN/],
    ['45 lbf·ft', 'nm', 'ambiguous-quantity', 'unit', /nanometre/],
    ['45 lbf·ft', '', 'unknown-unit', 'unit', /No unit is given/],
    ['45 kg·m', 'N·m', 'unknown-unit', 'quantity', /kgf·m/],
    ['45', 'N·m', 'ambiguous-quantity', 'quantity', /no unit/],
    ['', 'N·m', 'unreadable-quantity', 'quantity', /empty/],
  ])('%j in %j is refused as %s of the %s', async (typed, unit, code, field, words) => {
    const found = await refusal(() => answer('convert', typed, unit));
    expect(found).toMatchObject({ code, field });
    expect(found.message).toMatch(words);
  });

  it('an object is no quantity', async () => {
    expect(await refusal(() => answer('convert', {}, 'mm'))).toMatchObject({ code: 'usage' });
  });
});

describe('thread', () => {
  it('has every field of the contract', async () => {
    const { exit, result } = await answer('thread', '1/4-28 UNJF-3A');
    expect(exit).toBe(0);
    expect(result).toMatchObject({
      designation: '1/4-28 UNJF-3A',
      system: 'unified',
      series: 'UNJF',
      majorMm: 6.35,
      threadsPerInch: 28,
      rootDiameterMm: null,
      hand: 'right',
    });
    for (const field of ['pitchMm', 'pitchDiameterMm', 'minorDiameterMm', 'stressAreaMm2'])
      expect(result).toHaveProperty(field, expect.any(Number));
  });

  it('what cannot be read names the place', async () => {
    expect(await refusal(() => answer('thread', '1/4-28 UNX'))).toMatchObject({
      code: 'unreadable-thread',
      field: 'designation',
      position: 7,
    });
  });
});

describe('arguments', () => {
  const form = { positional: ['file', 'other?'], options: ['--format'], flags: ['--skip-bad'] };

  it('are sorted whatever their order', () => {
    const parsed = parseArguments(['--skip-bad', 'a', '--format', 'csv', '-5 N'], form);
    expect(parsed.positional).toEqual(['a', '-5 N']);
    expect([...parsed.options]).toEqual([['--format', 'csv']]);
    expect([...parsed.flags]).toEqual(['--skip-bad']);
  });

  it.each([
    [[], /The file is missing/],
    [['a', 'b', 'c'], /too many/],
    [['a', '--formal', 'csv'], /--formal is unknown here; known are --format, --skip-bad/],
    [['a', '--format'], /--format needs a value/],
    [['a', '--format', '--skip-bad'], /--format needs a value/],
    [['a', '--format', 'csv', '--format', 'csv'], /given twice/],
    [['a', '--skip-bad', '--skip-bad'], /given twice/],
    [['a', '--', 'b'], /-- is unknown/],
  ])('%j is refused', async (args, words) => {
    const found = await refusal(() => parseArguments(args, form));
    expect(found.code).toBe('usage');
    expect(found.message).toMatch(words);
  });

  it('name the one that is missing', async () => {
    expect(await refusal(() => parseArguments([], form))).toMatchObject({ field: 'file' });
    expect(await refusal(() => answer('convert', '1 m'))).toMatchObject({ field: 'unit' });
  });
});

describe('inputs', () => {
  it('an object stands for a JSON file, a path is read strictly', async () => {
    expect(await jsonInput({ a: 1 }, nothing)).toEqual({ value: { a: 1 } });
    expect(await jsonInput('p.json', withFile('{"a":1}'))).toEqual({
      value: { a: 1 },
      file: 'p.json',
      text: '{"a":1}',
    });
    expect(await refusal(() => jsonInput('p.json', withFile('{"a":1,"a":2}')))).toMatchObject({
      code: 'duplicate-key',
      file: 'p.json',
    });
    expect(await refusal(() => jsonInput(undefined, nothing))).toMatchObject({ code: 'usage' });
  });

  it('{"csv": text} stands for a CSV file', async () => {
    expect(await csvInput({ csv: 'id\na' }, nothing)).toEqual({ content: 'id\na' });
    expect(await csvInput('c.csv', withFile('id'))).toEqual({ content: encoder.encode('id'), file: 'c.csv' });
    expect(await refusal(() => csvInput({ csv: 1 }, nothing))).toMatchObject({ code: 'wrong-shape', field: 'csv' });
    expect(await refusal(() => csvInput({ csv: 'a', extra: 1 }, nothing))).toMatchObject({ code: 'usage' });
    expect(await refusal(() => csvInput({}, nothing))).toMatchObject({ code: 'wrong-shape' });
  });

  it('standard input belongs to the batch, not to its lines', async () => {
    expect(await refusal(() => jsonInput('-', withFile('{}', true)))).toMatchObject({ code: 'usage' });
    expect(await jsonInput('-', withFile('{}'))).toMatchObject({ value: {} });
  });
});

describe('batch', () => {
  it.each([
    ['["convert","1 in","mm"]', 0, { result: { value: 25.4 } }],
    ['  ["thread","M10"]  ', 0, { result: { size: 'M10' } }],
    ['{"convert":1}', 2, { error: { code: 'usage', row: 1 } }],
    ['"convert"', 2, { error: { code: 'usage', row: 1 } }],
    ['[]', 2, { error: { code: 'usage' } }],
    ['[["convert"]]', 2, { error: { code: 'usage', row: 1 } }],
    ['["convert",45,"mm"]', 2, { error: { code: 'usage', row: 1 } }],
    ['["convert",null,"mm"]', 2, { error: { code: 'usage', row: 1 } }],
    ['[{"a":1}]', 2, { error: { code: 'usage' } }],
    ['["batch",{"a":1}]', 2, { error: { code: 'usage' } }],
    ['["bag","-"]', 2, { error: { code: 'usage' } }],
    ['["bag",{"__proto__":1}]', 2, { error: { code: 'forbidden-key', row: 1 } }],
    ['["convert","1 in","mm"', 2, { error: { code: 'not-json', row: 1, position: 22 } }],
  ])('%s', async (line, exit, expected) => {
    const [only, second] = await batchLines(line);
    expect(second).toBeUndefined();
    expect(only?.exit).toBe(exit);
    expect(JSON.parse(only?.line ?? '')).toMatchObject({ exit, ...expected });
  });

  it('blank lines are answered where lines follow, and are nothing at the end', async () => {
    expect((await batchLines('\n["thread","M10"]\n \r\n\n')).map(({ exit }) => exit)).toEqual([2, 0]);
    expect(await batchLines('')).toEqual([]);
  });

  it('a line with a Windows ending is a line', async () => {
    expect((await batchLines('["thread","M10"]\r\n["thread","M8"]\r\n')).map(({ exit }) => exit)).toEqual([0, 0]);
  });
});

it('a result that is not finite is a fault of the program and never null', () => {
  expect(() => jsonText({ a: [1, Number.NaN] })).toThrowError(/result's "1" is NaN/);
  expect(refusalOf(new Error('boom'))).toEqual({ code: 'internal', message: 'This program failed: boom' });
});
