import { describe, expect, it } from 'vitest';
import type { CommandArgument, CommandIo } from '../../../electron/headless/command.ts';
import { runCommand } from '../../../electron/headless/run.ts';
import { RefusedError } from '../../../renderer/engine/errors.ts';
import type { JointResult } from '../../../shared-types/joint.ts';
import { resultOf, told } from './inProcess.ts';

const friction = { thread: 0.12, bearing: 0.1, bearingDiameterMm: 13 };
const nutFactor = { nominal: 0.2 };
const band = { min: '40 N·m', max: '50 N·m' };

describe('preload', () => {
  it('has every field of the contract', async () => {
    const result = await resultOf<JointResult>('preload', '--file', {
      thread: 'M10',
      strength: '8.8',
      friction,
      torque: band,
    });
    const number = expect.any(Number) as number;
    expect(result).toEqual({
      preloadN: { nominal: number, min: number, max: number },
      torqueNm: { seating: { nominal: 45, min: 40, max: 50 }, installation: { min: 40, max: 50 } },
      releaseTorqueNm: number,
      efficiency: number,
      selfLocking: true,
      nutFactorEffective: number,
      stressMPa: { tension: number, shear: number, equivalent: number },
      torsion: 'elastic',
      proofShare: { nominal: number, max: number },
      yieldShare: { nominal: number, max: number },
      published: [],
      queries: [{ rule: 'preload-over-yield', message: expect.stringContaining('108.3 %') as string }],
      assumptions: expect.arrayContaining([expect.any(String)]) as string[],
      sources: expect.arrayContaining([expect.objectContaining({ number: 'ISO 898-1' })]) as object[],
      caution: expect.stringContaining('Verify before use') as string,
    });
  });

  it('says what the numbers say against the joint, and gives them as they are', async () => {
    const rules = async (joint: Record<string, unknown>): Promise<string[]> =>
      (await resultOf<JointResult>('preload', '--file', { thread: 'M10', ...joint })).queries.map(({ rule }) => rule);
    const explicit = (proofMPa: number, yieldMPa: number) => ({ strength: { proofMPa, yieldMPa }, friction });
    const opened = { nutFactor, preload: '20 kN', thermalN: { gain: 0, loss: 20_001 } };
    expect(await rules(opened)).toEqual(['preload-below-zero']);
    expect(
      await rules({ ...opened, thermalN: { gain: 0, loss: 20_000 } }),
      'no preload left, and none below 0',
    ).toEqual([]);
    // Twenty kilonewton on 57.99 mm² are 344.9 MPa of tension; with the torsion of a friction of 0.12 some 421 MPa.
    const loaded = { preload: '20 kN' };
    expect(await rules({ ...explicit(344, 640), ...loaded })).toEqual(['preload-over-proof']);
    expect(await rules({ ...explicit(346, 640), ...loaded })).toEqual([]);
    expect(await rules({ ...explicit(346, 400), ...loaded })).toEqual(['preload-over-yield']);
    expect(await rules({ ...explicit(300, 400), ...loaded })).toEqual(['preload-over-proof', 'preload-over-yield']);
  });

  it('takes the joint with or without --file in a batch, and inch-pound units', async () => {
    const joint = { thread: '1/4-28', nutFactor, torque: { min: '50 in-lb', max: '70 lbf·in' } };
    const named = await told('preload', '--file', joint);
    expect(named).toEqual(await told('preload', joint));
    expect(named).toMatchObject({
      exit: 0,
      result: { preloadN: { nominal: expect.closeTo(1200 * 4.4482216152605, 8) } },
    });
  });

  it('a preload over proof is told, and no fault of the command', async () => {
    const joint = { thread: 'M10', strength: '8.8', nutFactor, preload: '60 kN' };
    expect(await told('preload', joint)).toMatchObject({
      exit: 0,
      result: { proofShare: { nominal: expect.closeTo(1.78, 2) } },
    });
  });
});

describe('the file', () => {
  const io = (text: string): CommandIo => ({
    readText: () => Promise.resolve(text),
    readBytes: () => Promise.resolve(new TextEncoder().encode(text)),
    async *readLines() {
      yield* [];
    },
    inBatch: false,
    run: runCommand,
  });
  async function refusalOfFile(text: string, ...args: CommandArgument[]) {
    try {
      await runCommand('preload', args, io(text));
    } catch (error) {
      if (error instanceof RefusedError) return error.refusal;
      throw error;
    }
    throw new Error('nothing was refused');
  }
  const file = (lines: string[]) => lines.join('\n');

  it('a fault names file, row, field and value', async () => {
    const text = file(['{', '"thread": "M10",', '"nutFactor": {"nominal": 0.2},', '"preload": "-20 kN"', '}']);
    expect(await refusalOfFile(text, '--file', 'joint.json')).toMatchObject({
      code: 'out-of-range',
      file: 'joint.json',
      row: 4,
      field: 'preload',
      value: '-20 kN',
    });
  });

  it('one found only while computing too', async () => {
    const text = file([
      '{"thread": "M10", "nutFactor": {"nominal": 0.2}, "torqueIs": "wrench",',
      '"torque": {"min": "5 N·m", "max": "9 N·m"},',
      '"running": {"min": "1 N·m",',
      '  "max": "6 N·m"}}',
    ]);
    expect(await refusalOfFile(text, '--file', 'joint.json')).toMatchObject({
      file: 'joint.json',
      row: 4,
      field: 'running.max',
      value: '6 N·m',
    });
  });

  it('broken JSON and doubled fields are refused before anything else', async () => {
    expect(await refusalOfFile('{"thread": "M10",', '--file', 'x.json')).toMatchObject({
      code: 'not-json',
      file: 'x.json',
    });
    expect(await refusalOfFile('{"thread": "M10", "thread": "M12"}', '--file', 'x.json')).toMatchObject({
      code: 'duplicate-key',
    });
    expect(await refusalOfFile('[]', '--file', 'x.json')).toMatchObject({ code: 'wrong-shape' });
    expect(
      await refusalOfFile('{"thread":"M10","preload":"1 N","nutFactor":{"nominal":1e999}}', '--file', 'x'),
    ).toMatchObject({
      code: 'not-finite',
    });
  });

  it.each([
    [[], /The file is missing/],
    [['joint.json'], /--file joint\.json/],
    [['--file'], /needs a value/],
    [['--file', 'a.json', '--file', 'b.json'], /given twice/],
    [['--file', 'a.json', 'b.json'], /--file joint\.json/],
    [['--form', 'linear'], /unknown here/],
  ])('arguments %j are refused', async (args, words) => {
    const refusal = await refusalOfFile('{}', ...args);
    expect(refusal.code).toBe('usage');
    expect(refusal.message).toMatch(words);
  });
});
