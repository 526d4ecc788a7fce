import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { runCommand } from '../../../electron/headless/run.ts';
import type { CommandIo } from '../../../electron/headless/command.ts';
import type { AsRunResult } from '../../../shared-types/asRun.ts';
import { inFolder } from '../../support/folder.ts';
import { root } from '../../support/tracked.ts';
import { calloutOf, csvOf, recordOf } from '../../engine/asrun/judged.ts';
import { printed, told } from './inProcess.ts';

const callouts = csvOf([calloutOf(), calloutOf({ id: 'N', runningIncluded: 'no', breakawayMin: '1 N·m' })]);
const conforming = csvOf([recordOf(), recordOf({ position: 2 })]);
const outside = csvOf([recordOf(), recordOf({ position: 2, final: '62 N·m' })]);
const asked = (records: string, ...more: string[]) =>
  told<AsRunResult>('asrun', { csv: records }, '--callouts', { csv: callouts }, ...more);

describe('asrun', () => {
  it('ends with 0 where all conforms, with 1 where something does not, with 2 where a row is bad', async () => {
    expect((await asked(conforming)).exit).toBe(0);
    expect((await asked(outside)).exit).toBe(1);
    expect((await asked(csvOf([recordOf({ callout: 'N' })]))).exit).toBe(1);
    expect(await asked(csvOf([recordOf({ final: '54' })]))).toMatchObject({
      exit: 2,
      error: { code: 'ambiguous-quantity', row: 2, field: 'final' },
    });
  });

  it('gives every bad row in one go, and with --skip-bad the rest', async () => {
    const records = csvOf([
      recordOf({ final: '54' }),
      recordOf({ position: 2 }),
      recordOf({ callout: 'X', position: 3 }),
    ]);
    const refused = await asked(records);
    expect(refused).toMatchObject({
      exit: 2,
      error: {
        rows: [
          { row: 2, field: 'final' },
          { row: 4, field: 'callout' },
        ],
      },
    });
    const passed = await asked(records, '--skip-bad');
    expect(passed).toMatchObject({
      exit: 0,
      result: { skipped: [{ row: 2 }, { row: 4 }], summary: { conforming: 1 } },
    });
  });

  it('does not call a file conforming none of whose rows could be read', async () => {
    const nothing = await asked(csvOf([recordOf({ final: '54' })]), '--skip-bad');
    expect(nothing).toMatchObject({ exit: 1, result: { rows: [], skipped: [{ row: 2 }] } });
  });

  it('has the fields of the contract', async () => {
    const { exit, result } = (await asked(outside)) as { exit: number; result: AsRunResult };
    expect(exit).toBe(1);
    expect(result.summary).toEqual({ conforming: 1, nonconforming: 1, indeterminate: 0 });
    expect(Object.keys(result.rows[1] ?? {})).toEqual(
      expect.arrayContaining(['id', 'decision', 'findings', 'computed']),
    );
    expect(result.rows[1]?.findings).toEqual([
      {
        rule: 'final-outside-callout',
        severity: 'reject',
        message: 'The final torque of 62 N·m is 4 N·m over the greatest of 58 N·m of the callout.',
        value: 62,
        limit: 58,
        unit: 'N·m',
        source: expect.any(String) as string,
      },
    ]);
    expect(result.caution).toContain('can hurt people');
  });

  it.each([
    [[{ csv: conforming }], 'callouts'],
    [[{ csv: conforming }, '--callouts'], 'value'],
    [[], 'missing'],
    [[{ csv: conforming }, '--callouts', { csv: callouts }, '--format', 'xml'], 'json, csv, text'],
    [[{ csv: conforming }, '--callouts', { csv: callouts, more: 1 }], 'csv'],
    [['-', '--callouts', '-'], 'Standard input'],
  ])('refuses %j', async (args, words) => {
    const answer = await told('asrun', ...args);
    expect(answer).toMatchObject({ exit: 2, error: { code: 'usage' } });
    expect(answer.exit === 2 ? answer.error.message : '').toContain(words);
  });

  it('is a line of a batch', async () => {
    const lines = [
      JSON.stringify(['asrun', { csv: conforming }, '--callouts', { csv: callouts }]),
      JSON.stringify(['asrun', { csv: outside }, '--callouts', { csv: callouts }]),
      JSON.stringify(['asrun', { csv: csvOf([recordOf({ cycle: 'x' })]) }, '--callouts', { csv: callouts }]),
      JSON.stringify(['asrun', { csv: conforming }, '--callouts', { csv: callouts }, '--skip-bad']),
      JSON.stringify(['asrun', { csv: conforming }, '--callouts', { csv: csvOf([calloutOf({ torqueMin: '5' })]) }]),
    ];
    const io: CommandIo = {
      readText: () => Promise.reject(new Error('no file')),
      readBytes: () => Promise.reject(new Error('no file')),
      async *readLines() {
        for (const line of lines) yield new TextEncoder().encode(line);
      },
      inBatch: false,
      run: runCommand,
    };
    const given = await runCommand('batch', ['x.jsonl'], io);
    if (!('lines' in given)) throw new Error('it did not answer in lines');
    const answers = [];
    for await (const { line } of given.lines)
      answers.push(JSON.parse(line) as { exit: number; result?: AsRunResult; error?: unknown });
    expect(answers.map(({ exit }) => exit)).toEqual([0, 1, 2, 0, 2]);
    expect(answers[1]?.result?.summary.nonconforming).toBe(1);
    expect(answers[2]?.error).toMatchObject({ row: 2, field: 'cycle', value: 'x' });
    expect(answers[4]?.error).toMatchObject({ file: '--callouts', row: 2, field: 'torqueMin' });
  });
});

describe('files', () => {
  const demo = (kind: string) => join(root, `data/demo/tarn-array-${kind}.csv`);
  const ask = (...more: string[]) => printed('asrun', demo('as-run'), '--callouts', demo('callouts'), ...more);

  it('are judged the same byte for byte, every time and in every format', async () => {
    for (const format of ['json', 'csv', 'text']) {
      const [first, second] = [await ask('--format', format), await ask('--format', format)];
      expect(first.exit).toBe(1);
      expect(first.err).toBe('');
      expect(second).toEqual(first);
      expect(first.out.length).toBeGreaterThan(1000);
    }
  });

  it('give JSON with as many rows as records, and CSV with a line for each finding', async () => {
    const result = JSON.parse((await ask('--tools', demo('tools'))).out) as AsRunResult;
    expect(result.rows).toHaveLength(40);
    expect(result.reopened).toHaveLength(1);
    const lines = (await ask('--tools', demo('tools'), '--format', 'csv')).out.trimEnd().split('\r\n');
    const wanted = result.rows.reduce((sum, { findings }) => sum + Math.max(1, findings.length), 0);
    expect(lines).toHaveLength(1 + wanted);
    expect(lines[0]).toBe('callout,position,cycle,pass,decision,rule,severity,message,value,limit,unit,source,notes');
  });

  it('give text with counts, findings, series and caution', async () => {
    const { out } = await ask('--tools', demo('tools'), '--format', 'text');
    expect(out).toMatch(/^40 records: 22 conforming, 4 nonconforming, 14 indeterminate\.\n/);
    for (const words of [
      'Breakaway torque over the cycles',
      'not before cycle',
      'Tools found out of calibration',
      'can hurt people',
    ])
      expect(out).toContain(words);
  });

  it('name themselves in what is refused, and write nothing', async () => {
    await inFolder(
      { 'run.csv': csvOf([recordOf({ final: '1,200 lbf·in' })]), 'callouts.csv': callouts },
      async (folder) => {
        const { exit, out, err } = await printed(
          'asrun',
          join(folder, 'run.csv'),
          '--callouts',
          join(folder, 'callouts.csv'),
        );
        expect([exit, out]).toEqual([2, '']);
        expect(JSON.parse(err)).toMatchObject({
          error: { file: join(folder, 'run.csv'), row: 2, field: 'final', value: '1,200 lbf·in' },
        });
      },
    );
    const absent = await printed('asrun', demo('as-run'), '--callouts', 'no-such-file.csv');
    expect(JSON.parse(absent.err)).toMatchObject({ error: { code: 'unreadable-file', file: 'no-such-file.csv' } });
  });

  it('hand a spreadsheet nothing to run', async () => {
    const records = csvOf([recordOf({ position: '-cmd|x', pass: "'=1+1" })]);
    await inFolder({ 'run.csv': records, 'callouts.csv': callouts }, async (folder) => {
      const { out } = await printed(
        'asrun',
        join(folder, 'run.csv'),
        '--callouts',
        join(folder, 'callouts.csv'),
        '--format',
        'csv',
      );
      const [, line = ''] = out.split('\r\n');
      expect(line.split(',').filter((cell) => /^["\s]*[=+@-]/.test(cell))).toEqual([]);
    });
  });
});
