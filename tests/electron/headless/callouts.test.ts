/** The command `callouts` from file to answer: formats, exits, batch, what a spreadsheet makes of its CSV. Source: the headless contract. */
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { availableParallelism, tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, describe, expect, it } from 'vitest';
import type { CalloutsResult } from '../../../shared-types/callout.ts';
import type { Refusal } from '../../../shared-types/errors.ts';
import { judgedInShares } from '../../../electron/headless/inShares.ts';
import { judgedCalloutsJson } from '../../../renderer/engine/callout/index.ts';
import { readTable } from '../../../renderer/engine/sheet/index.ts';
import { cellText } from '../../../renderer/engine/sheet/cellText.ts';
import { manyCallouts } from '../../bench/manyCallouts.ts';
import { csvOf, type Cells } from '../../engine/callout/judged.ts';
import { printed, resultsOf, told } from './inProcess.ts';
import { runHeadless } from './spawnCommand.ts';

const folder = mkdtempSync(join(tmpdir(), 'callouts-'));
afterAll(() => {
  rmSync(folder, { recursive: true });
});

function file(name: string, content: string | Uint8Array): string {
  const path = join(folder, name);
  writeFileSync(path, content);
  return path;
}

const good: Cells = { id: 'A', thread: '1/4-28', torqueMin: '50 lbf·in', torqueMax: '70 lbf·in' };
const loose: Cells = { ...good, id: 'B', locking: 'NASM25027' };
const wrong: Cells = { ...good, id: 'C', torqueMin: '80 lbf·in' };
const bad: Cells = { ...good, id: 'D', torqueMin: '80' };

const result = (out: string): CalloutsResult => JSON.parse(out) as CalloutsResult;

describe('exits', () => {
  it.each([
    ['0 where all conforms', [good], 0],
    ['1 where something is indeterminate', [good, loose], 1],
    ['1 where something is nonconforming', [good, wrong], 1],
    ['0 where there is nothing to judge', [], 0],
  ])('%s', async (_, rows, exit) => {
    const ran = await printed(
      'callouts',
      file('a.csv', rows.length === 0 ? 'id,thread,torqueMin,torqueMax\n' : csvOf(rows)),
    );
    expect(ran.exit).toBe(exit);
    expect(result(ran.out).rows.map(({ id }) => id)).toEqual(rows.map(({ id }) => id));
    expect(result(ran.out).summary).toEqual({
      conforming: rows.filter((row) => row === good).length,
      nonconforming: rows.filter((row) => row === wrong).length,
      indeterminate: rows.filter((row) => row === loose).length,
    });
  });

  it('2 with every bad row, and nothing written', async () => {
    const path = file('b.csv', csvOf([good, bad, { ...bad, id: 'E', thread: 'Q' }]));
    const ran = await printed('callouts', path);
    expect(ran).toMatchObject({ exit: 2, out: '' });
    const { error } = JSON.parse(ran.err) as { error: Refusal };
    expect(error).toMatchObject({ file: path, row: 3, field: 'torqueMin', value: '80' });
    expect(error.rows?.map(({ row, field }) => [row, field])).toEqual([
      [3, 'torqueMin'],
      [4, 'thread'],
      [4, 'torqueMin'],
    ]);
  });

  it('--skip-bad judges the rest and lists what it passes over', async () => {
    const ran = await printed('callouts', file('c.csv', csvOf([good, bad])), '--skip-bad');
    expect(ran.exit).toBe(0);
    expect(result(ran.out)).toMatchObject({ rows: [{ id: 'A' }], skipped: [{ row: 3, field: 'torqueMin' }] });
    const none = await printed('callouts', file('d.csv', csvOf([bad])), '--skip-bad');
    expect(none.exit).toBe(1);
  });

  it.each([
    ['a file that is not there', ['callouts', join(folder, 'none.csv')], 'unreadable-file'],
    ['a format nobody knows', ['callouts', 'x.csv', '--format', 'xml'], 'usage'],
    ['no file', ['callouts'], 'usage'],
    ['an option nobody knows', ['callouts', 'x.csv', '--skip'], 'usage'],
  ])('2 for %s', async (_, [name = '', ...args], code) => {
    const ran = await printed(name, ...args);
    expect(ran).toMatchObject({ exit: 2, out: '' });
    expect(JSON.parse(ran.err)).toMatchObject({ error: { code } });
  });
});

describe('the file', () => {
  it('may come from standard input, in UTF-16 or CP1252, and is told so', async () => {
    const text = csvOf([good]);
    const utf16 = Buffer.concat([Buffer.from([0xff, 0xfe]), Buffer.from(text, 'utf16le')]);
    const [one, other] = await Promise.all([
      runHeadless(['callouts', '-'], utf16),
      runHeadless(['callouts', '-'], Buffer.from(text, 'latin1')),
    ]);
    expect(one.exit).toBe(0);
    expect(result(one.stdout).read).toMatchObject({ encoding: 'UTF-16LE', delimiter: 'comma', rows: 1 });
    expect(other.exit).toBe(0);
    expect(result(other.stdout).read).toMatchObject({ encoding: 'CP1252' });
    expect({ ...result(other.stdout), read: null }).toEqual({ ...result(one.stdout), read: null });
  });

  it('is not held back by a reader who leaves', async () => {
    const ran = await runHeadless(['callouts', file('many.csv', manyCallouts(500, 3)), '--format', 'text']);
    expect(ran.stdout).toMatch(/^500 callouts: /);
  });
});

describe('columns that no rule reads', () => {
  it('are kept and told', async () => {
    const rows = [{ ...good, Sheet: '3', __proto__x: 'y', note: '=1+1' }];
    const ran = await printed('callouts', file('e.csv', csvOf(rows)));
    expect(result(ran.out)).toMatchObject({
      unknownColumns: ['Sheet', '__proto__x', 'note'],
      rows: [{ otherColumns: { Sheet: '3', note: '=1+1' } }],
    });
    expect(({} as Record<string, unknown>)['polluted']).toBeUndefined();
  });

  it('may be called as scripts’ own', async () => {
    const ran = await printed(
      'callouts',
      file('f.csv', 'id,thread,torqueMin,torqueMax,__proto__\nA,M10,1 N·m,2 N·m,{"polluted":1}\n'),
    );
    expect(ran.out).toContain('"otherColumns":{"__proto__":"{\\"polluted\\":1}"}');
    expect(({} as Record<string, unknown>)['polluted']).toBeUndefined();
  });
});

describe('CSV', () => {
  const live = [
    '=1+1',
    '+1+1',
    '-1+1',
    '@x',
    "=cmd|' /C calc'!A0",
    '\t=1',
    "'=1",
    "''=x",
    '＝1',
    '"=1"',
    '-5',
    'plain',
  ];

  it('begins no cell as a formula, and gives back what stood in the file', async () => {
    const rows = live.map((note, at): Cells => ({ ...wrong, id: `X${at}`, note, 'te=xt': note }));
    const ran = await printed('callouts', file('g.csv', csvOf(rows)), '--format', 'csv');
    const table = readTable(
      { content: ran.out },
      { known: ['id', 'note', 'te=xt', 'rule', 'value'], needed: [['id']] },
    );
    const at = table.columns.get('note') ?? -1;
    const read = [...table.records];
    for (const { cells } of read) {
      for (const [column, cell] of cells.entries())
        if (column !== table.columns.get('value')) expect(cell).not.toMatch(/^\s*[=+\-@＝＋－＠]/);
    }
    const firsts = read.filter(({ cells }) => cells[table.columns.get('rule') ?? -1] === 'empty-band');
    // The file's own apostrophe before a formula made it a text: it is kept as it stood.
    expect(firsts.map(({ cells }) => cellText(cells[at] ?? '').text)).toEqual(live);
  });

  it('has a line for each finding, and one for a callout without', async () => {
    const ran = await printed('callouts', file('h.csv', csvOf([good, wrong])), '--format', 'csv');
    const lines = ran.out.split('\r\n');
    expect(lines[0]).toBe('id,decision,rule,severity,message,value,limit,unit,source');
    expect(ran.exit).toBe(1);
    expect(lines.filter((line) => line.startsWith('C,nonconforming,empty-band,reject,'))).toHaveLength(1);
  });
});

describe('a batch', () => {
  it('judges the text of a CSV', async () => {
    const [one] = await resultsOf<CalloutsResult>('callouts', [[{ csv: csvOf([good, wrong]) }]]);
    expect(one?.summary).toEqual({ conforming: 1, nonconforming: 1, indeterminate: 0 });
    const refused = await told<CalloutsResult>('callouts', { csv: csvOf([bad]) });
    expect(refused).toMatchObject({ exit: 2, error: { row: 2, field: 'torqueMin' } });
    expect(refused.exit === 2 ? refused.error.file : 'x').toBeUndefined();
  });

  it('answers as the command does', async () => {
    const csv = csvOf([good, loose, wrong]);
    const line = `${JSON.stringify(['callouts', { csv }])}\n${JSON.stringify(['callouts', { csv: 'id\n' }])}\n${JSON.stringify(['callouts', { csv }, '--format', 'csv'])}\n`;
    const ran = await runHeadless(['batch', '-'], line);
    expect(ran.exit).toBe(2);
    const [json, refused, text] = ran.stdout
      .trimEnd()
      .split('\n')
      .map((each) => JSON.parse(each) as Record<string, unknown>);
    const direct = await printed('callouts', file('i.csv', csv));
    expect({ ...(json?.['result'] as object), read: null }).toEqual({ ...result(direct.out), read: null });
    expect(json?.['exit']).toBe(1);
    expect(refused).toMatchObject({ exit: 2, error: { code: 'missing-field' } });
    expect(text?.['result']).toMatch(/^id,decision/);
  });
});

describe('the same file', () => {
  it('gives the same bytes, however its answer is written', async () => {
    const path = file('j.csv', manyCallouts(400, 7));
    const [one, again] = [await printed('callouts', path), await printed('callouts', path)];
    expect(again.out).toBe(one.out);
    const spawned = await runHeadless(['callouts', path]);
    expect(spawned.stdout).toBe(one.out);
    const [eager] = await resultsOf<CalloutsResult>('callouts', [[{ csv: manyCallouts(400, 7) }]]);
    expect({ ...result(one.out), read: null }).toEqual({ ...eager, read: null });
    expect(result(one.out).rows).toHaveLength(400);
  });
});

describe('a large file', () => {
  const many = manyCallouts(20_000, 5);

  it('is judged by all the processors there are to the same bytes as by one', async () => {
    const asked = { content: Buffer.from(many), skipBad: false };
    const shared = await judgedInShares(asked);
    expect(shared === null).toBe(availableParallelism() === 1);
    if (shared === null) return;
    expect(Buffer.concat(shared.blocks).toString() === [...judgedCalloutsJson(asked)].join('')).toBe(true);
  });
});
