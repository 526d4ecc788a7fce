import { spawnSync } from 'node:child_process';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import Papa from 'papaparse';
import { afterAll, describe, expect, it } from 'vitest';
import type { BagResult } from '../../../shared-types/bag.ts';
import type { Refusal } from '../../../shared-types/errors.ts';
import type { Edit } from '../../support/editJson.ts';
import { all, put } from '../../support/editJson.ts';
import { smallPlan } from '../../support/smallPlan.ts';
import { printed, refusalFrom } from './inProcess.ts';

const root = fileURLToPath(new URL('../../..', import.meta.url));
const folder = mkdtempSync(join(tmpdir(), 'bagwright-'));
afterAll(() => rmSync(folder, { recursive: true }));

/** In a process of its own: for what a process adds. The rest is asked of the same command in this one. */
function bagwright(args: string[], input?: string) {
  const run = spawnSync(process.execPath, ['--import', 'tsx', 'electron/headless/main.ts', ...args], {
    cwd: root,
    encoding: 'utf8',
    ...(input === undefined ? {} : { input }),
  });
  return { exit: run.status, out: run.stdout, err: run.stderr };
}

function planFile(name: string, edit: Edit = all()): string {
  const plan = smallPlan();
  edit(plan);
  const file = join(folder, `${name}.json`);
  writeFileSync(file, JSON.stringify(plan, null, 2));
  return file;
}

const resultOf = (run: { out: string }) => JSON.parse(run.out) as BagResult;

function refusalOf(run: { exit: number | null; out: string; err: string }): Refusal {
  expect(run.exit).toBe(2);
  expect(run.out).toBe('');
  return (JSON.parse(run.err) as { error: Refusal }).error;
}

describe('bagwright bag', () => {
  it('ends with 0 and a proof where every step is done', () => {
    const run = bagwright(['bag', planFile('done')]);
    expect(run).toMatchObject({ exit: 0, err: '' });
    expect(resultOf(run)).toMatchObject({ status: 'optimal', singleLoss: false, problems: [], infeasible: [] });
    expect((resultOf(run) as BagResult & { basis: string[] }).basis.join(' '), 'what the figures rest on').toMatch(
      /ISO 14253-1.*edition.*half to even/,
    );
  });

  it('reads a plan from standard input', () => {
    const run = bagwright(['bag', '-', '--minimise', 'count'], JSON.stringify(smallPlan()));
    expect(resultOf(run).objective).toMatchObject({ minimised: 'count', value: 6, bound: 6, gap: 0, unit: 'pieces' });
  });

  it('ends with 1 and the closest fits where a step cannot be done', async () => {
    const run = await printed('bag', planFile('far', put('steps[0].access.depth', '30 in')));
    expect(run.exit).toBe(1);
    const result = resultOf(run);
    expect(result).toMatchObject({ status: 'infeasible', objective: null });
    expect(result.infeasible[0]).toMatchObject({
      step: 'loosen',
      closest: [
        { stack: ['R-38', 'X-3', 'X-6', 'S-9/16'], fails: [{ check: 'reach', have: '10.25 in', need: '30 in' }] },
        {},
      ],
    });
  });

  it('ends with 1 where the plan has problems, and still gives the bag', async () => {
    const late = all(put('outings[0].minutesMax', 5), put('steps[0].minutes', 9));
    const run = await printed('bag', planFile('late', late));
    expect(run.exit).toBe(1);
    expect(resultOf(run)).toMatchObject({
      status: 'optimal',
      problems: [{ rule: 'over-time', outing: 'O1', quantity: 4 }],
    });
  });

  it('writes CSV that reads back, with texts that no spreadsheet runs', async () => {
    const named = planFile('named', put('catalog.sockets[0].name', '=HYPERLINK("x")'));
    const run = await printed('bag', named, '--format', 'csv');
    const { data } = Papa.parse<Record<string, string>>(run.out, { header: true, skipEmptyLines: true });
    expect(data.filter(({ kind }) => kind === 'item')).toHaveLength(5);
    expect(data.find(({ item }) => item === 'S-9/16')).toMatchObject({
      item: 'S-9/16',
      name: '\'=HYPERLINK("x")',
      pieces: '1',
      neededAtSteps: 'loosen tighten',
    });
  });

  it('writes text with the proof, each reason and the caution', async () => {
    const { out } = await printed('bag', planFile('text'), '--format', 'text');
    expect(out).toMatch(/^Proved least: 1\.91 kg\./);
    expect(out).toMatch(/1 × S-9\/16 .*for loosen, tighten/);
    expect(out).toMatch(/tighten: TT-2 \+ X-3 \+ S-9\/16; set 32\.5 lbf·ft/);
    expect(out).toMatch(/swingDeg: loosen/);
    expect(out).toMatch(/Torque and lifting can hurt people/);
  });

  it('gives the same bytes again, in whichever process', async () => {
    const file = join(root, 'data/demo/tarn-array.json');
    const [first, second] = [bagwright(['bag', file]), await printed('bag', file)];
    expect(first.exit).toBe(0);
    expect(second.out).toBe(first.out);
  });

  it('refuses a bad plan with file, row, field, value and reason', () => {
    const file = planFile('bad', put('catalog.sockets[0].mass', '60'));
    expect(refusalOf(bagwright(['bag', file]))).toMatchObject({
      code: 'ambiguous-quantity',
      file,
      field: 'catalog.sockets[0].mass',
      value: '60',
      row: expect.any(Number) as number,
    });
  });

  it.each([join(folder, 'absent.json'), folder])('refuses to read %s', async (path) => {
    expect(refusalOf(await printed('bag', path)).code).toBe('unreadable-file');
  });

  it.each([
    [[], 'usage'],
    [['a.json', 'b.json'], 'usage'],
    [['a.json', '--minimise', 'price'], 'usage'],
    [['a.json', '--minimise'], 'usage'],
    [['a.json', '--time-limit', '0'], 'usage'],
    [['a.json', '--time-limit', '-3'], 'usage'],
    [['a.json', '--time-limit', 'soon'], 'usage'],
    [['a.json', '--format', 'xml'], 'usage'],
    [['a.json', '--fast'], 'usage'],
    [['a.json', '--tolerance', 'two'], 'usage'],
    [['a.json', '--tolerance'], 'usage'],
    [['a.json', '--single-loss', '--tolerance', 'bag'], 'usage'],
    [['a.json', '--single-loss', '--tolerance', 'nothing'], 'usage'],
    [['a.json', '--keep', 'X-3'], 'usage'],
    [['a.json', '--keep', 'X-3=some'], 'usage'],
    [['a.json', '--keep', '=2'], 'usage'],
    [['a.json', '--spare', 'C-1=-1'], 'usage'],
    [['a.json', '--forbid'], 'usage'],
  ])('refuses %j as %s, before any file is read', async (args, code) => {
    expect((await refusalFrom('bag', ...args)).code).toBe(code);
  });

  const twice = all(
    ...['sockets[0]', 'sockets[1]', 'extensions[0]', 'extensions[1]', 'drivers[0]', 'torqueTools[0]'].map((item) =>
      put(`catalog.${item}.onHand`, 2),
    ),
  );

  it.each([[['--single-loss']], [['--tolerance', 'piece']], [['--tolerance', 'piece', '--single-loss']]])(
    'stands the loss of any one piece with %j, and says which steps a spare protects',
    async (options) => {
      const run = await printed('bag', planFile('loss', twice), ...options);
      expect(run.exit).toBe(0);
      const result = resultOf(run);
      expect(result).toMatchObject({ status: 'optimal', singleLoss: true, tolerance: 'piece' });
      const [outing] = result.outings;
      // Two of driver, tool, extension and socket, and the caps.
      expect(result.objective?.value).toBeCloseTo(0.5 + 2 * (0.3 + 0.9 + 0.11 + 0.06) + 0.04, 12);
      expect(outing?.items.every(({ quantity }) => quantity >= 1)).toBe(true);
      const because = (id: string) => outing?.items.find((item) => item.id === id)?.because;
      expect(because('R-38')).toEqual(['loosen']);
      expect(because('TT-2')).toEqual(['tighten']);
      expect(because('X-3')).toEqual(['loosen', 'tighten']);
      const spare = outing?.items.filter(({ id }) => !outing.steps.some(({ stack }) => stack.includes(id)));
      for (const { id, because: steps } of spare ?? [])
        expect([id, steps]).toEqual([id, id === 'C-1' ? ['cap'] : ['loosen', 'tighten']]);
    },
  );

  it('says which steps a spare of another kind protects', async () => {
    const longer = all(put('catalog.drivers[0].onHand', 2), put('catalog.torqueTools[0].onHand', 2));
    const run = await printed('bag', planFile('spare', longer), '--single-loss', '--minimise', 'count');
    expect(run.exit).toBe(0);
    const [outing] = resultOf(run).outings;
    const used = new Set(outing?.steps.flatMap(({ stack }) => stack));
    const spare = (outing?.items ?? []).filter(({ id }) => id !== 'C-1' && !used.has(id));
    expect(spare.map(({ because }) => because)).toEqual([
      ['loosen', 'tighten'],
      ['loosen', 'tighten'],
    ]);
  });

  it('ends with 1 where no loss can be stood, naming each step and the piece', async () => {
    const run = await printed('bag', planFile('alone'), '--single-loss');
    expect(run.exit).toBe(1);
    const result = resultOf(run);
    expect(result).toMatchObject({ status: 'infeasible', objective: null, singleLoss: true, tolerance: 'piece' });
    expect(result.infeasible.map(({ step, reason }) => `${step}: ${reason}`)).toEqual([
      expect.stringMatching(/^loosen: .*nothing on hand does it once R-38 is lost$/) as string,
      expect.stringMatching(/^tighten: .*nothing on hand does it once TT-2 is lost$/) as string,
    ]);
  });

  it('stands the loss of a bag where there are two, and says why not where there is one', async () => {
    const two = all(twice, put('catalog.bags', [{ id: 'B-1' }, { id: 'B-2' }]), put('outings[0].bags', ['B-1', 'B-2']));
    const run = await printed('bag', planFile('two-bags', two), '--tolerance', 'bag');
    expect(run.exit).toBe(0);
    const result = resultOf(run);
    expect(result).toMatchObject({ status: 'optimal', singleLoss: false, tolerance: 'bag' });
    for (const bag of ['B-1', 'B-2'])
      expect(result.outings[0]?.items.filter((item) => item.bag === bag && item.id !== 'C-1')).toHaveLength(4);
    const one = await printed('bag', planFile('one-bag', twice), '--tolerance', 'bag');
    expect(one.exit).toBe(1);
    expect(resultOf(one).infeasible).toMatchObject([
      { outing: 'O1', closest: [{ fails: [{ check: 'bag', need: '2 bags' }] }] },
    ]);
  });

  it('keeps, forbids and adds spares, each as often as it is said', async () => {
    const wishes = ['--keep', 'R-38=2', '--keep', 'X-6=1', '--forbid', 'X-3', '--forbid', 'S-9/16', '--spare', 'C-1=1'];
    const run = await printed('bag', planFile('wishes', twice), ...wishes);
    expect(run.exit).toBe(0);
    const result = resultOf(run);
    expect(result.wishes).toEqual({
      keep: [
        { id: 'R-38', quantity: 2 },
        { id: 'X-6', quantity: 1 },
      ],
      forbid: [{ id: 'X-3' }, { id: 'S-9/16' }],
      spares: [{ id: 'C-1', quantity: 1 }],
    });
    expect(result.outings[0]?.items.map(({ id, quantity }) => `${quantity} ${id}`)).toEqual([
      '2 R-38',
      '1 TT-2',
      '1 X-6',
      '1 S-9/16-12',
      '3 C-1',
    ]);
    const text = (await printed('bag', planFile('wishes', twice), ...wishes, '--format', 'text')).out;
    expect(text).toContain(
      'Kept, at least: 2 × R-38, 1 × X-6.\nForbidden: X-3, S-9/16.\nSpare, beyond the need: 1 × C-1.',
    );
    const csv = (
      await printed('bag', planFile('wishes', twice), ...wishes, '--tolerance', 'nothing', '--format', 'csv')
    ).out;
    expect(csv).toMatch(/asked,.*"?Forbidden: X-3, S-9\/16\."?/);
    expect(csv).toMatch(/asked,.*Stands no loss/);
  });

  it('ends with 1 where what is needed is forbidden, and refuses what cannot be asked', async () => {
    const run = await printed('bag', planFile('needed'), '--forbid', 'C-1');
    expect(run.exit).toBe(1);
    expect(resultOf(run).infeasible.map(({ reason }) => reason)).toEqual(['outing O1: 2 × C-1 needed, and forbidden']);
    const refused = async (...options: string[]) => refusalOf(await printed('bag', planFile('asked'), ...options));
    expect(await refused('--keep', 'Q-9=1')).toMatchObject({ code: 'unknown-id', field: 'keep', value: 'Q-9' });
    expect(await refused('--forbid', 'Q-9')).toMatchObject({ code: 'unknown-id', field: 'forbid', value: 'Q-9' });
    expect(await refused('--spare', 'X-3=1')).toMatchObject({ code: 'out-of-range', field: 'spares', value: 'X-3' });
    expect(await refused('--keep', 'X-3=0')).toMatchObject({ code: 'out-of-range', field: 'keep', value: 0 });
  });

  it('answers lines of a batch, good ones beside bad ones', () => {
    const lines = [
      ['bag', smallPlan()],
      ['bag', { catalog: {}, steps: 5 }],
      ['bag', { ...smallPlan(), steps: [] }, '--minimise', 'count'],
      ['bag', '-'],
    ];
    const run = bagwright(['batch', '-'], lines.map((line) => JSON.stringify(line)).join('\n'));
    const answers = run.out
      .trim()
      .split('\n')
      .map((line) => JSON.parse(line) as { exit: number; result?: BagResult; error?: Refusal });
    expect(run.exit).toBe(2);
    expect(answers.map(({ exit }) => exit)).toEqual([0, 2, 0, 2]);
    expect(answers[0]?.result?.objective?.value).toBeCloseTo(1.91, 12);
    expect(answers[1]?.error).toMatchObject({ field: 'steps' });
  });
});
