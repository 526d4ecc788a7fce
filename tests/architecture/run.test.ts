import { existsSync, statSync } from 'node:fs';
import { join } from 'node:path';
import { setTimeout } from 'node:timers/promises';
import { describe, expect, it } from 'vitest';
import { givesWay, runNode } from '../support/command.ts';
import { countSuite, type Report } from '../support/countSuite.ts';
import { inFolder } from '../support/folder.ts';
import { runInLanes } from '../support/lanes.ts';
import { longest } from '../support/longestFirst.ts';
import type { Notes } from '../support/skipNotes.ts';
import { type Lane, pickStages, type Stage, stages } from '../support/stages.ts';
import { type Finished, summaryOf } from '../support/summary.ts';
import { root } from '../support/tracked.ts';

const well = { code: 0, text: 'what vitest printed', outOfTime: false };
const badly = { ...well, code: 1 };
const noNotes: Notes = { skipped: [], unhandled: 0 };

const file = (status: string, ...tests: string[]): Report => ({
  testResults: [
    {
      name: 'a.test.ts',
      status,
      message: status === 'failed' ? 'no such file' : '',
      assertionResults: tests.map((one, index) => ({ fullName: `test ${index}`, status: one })),
    },
  ],
});

describe('the count of a suite', () => {
  const cases: readonly (readonly [string, Report | null, Notes | null, typeof well, [number, number, number]])[] = [
    ['counts what passed', file('passed', 'passed', 'passed'), noNotes, well, [2, 0, 0]],
    ['counts what failed', file('failed', 'passed', 'failed'), noNotes, badly, [1, 1, 0]],
    ['fails a file that did not load', file('failed'), noNotes, badly, [0, 1, 0]],
    ['fails a file whose hooks failed', file('failed', 'passed', 'skipped'), noNotes, badly, [1, 1, 0]],
    ['fails a test put off', file('passed', 'passed', 'todo'), noNotes, well, [1, 1, 0]],
    ['fails a test left unfinished', file('passed', 'passed', 'pending'), noNotes, well, [1, 1, 0]],
    ['fails a run without a test', { testResults: [] }, noNotes, well, [0, 1, 0]],
    ['fails a run that broke off', null, null, badly, [0, 1, 0]],
    ['fails a run that said nothing of skipped tests', file('passed', 'passed'), null, well, [1, 1, 0]],
    ['fails a run that ran out of time', file('passed', 'passed'), noNotes, { ...well, outOfTime: true }, [1, 1, 0]],
    ['fails an error outside any test', file('passed', 'passed'), { skipped: [], unhandled: 1 }, badly, [1, 1, 0]],
    ['fails an exit code nobody explains', file('passed', 'passed'), noNotes, badly, [1, 1, 0]],
    [
      'counts a test skipped for a reason',
      file('passed', 'passed', 'skipped'),
      { skipped: [{ test: 'test 1', reason: 'no Electron' }], unhandled: 0 },
      well,
      [1, 0, 1],
    ],
    [
      'fails a test skipped for none',
      file('passed', 'passed', 'skipped'),
      { skipped: [{ test: 'test 1', reason: '' }], unhandled: 0 },
      well,
      [1, 1, 0],
    ],
    [
      'fails a run in which every test was skipped',
      file('passed', 'skipped'),
      { skipped: [{ test: 'test 0', reason: 'no Electron' }], unhandled: 0 },
      well,
      [0, 1, 1],
    ],
  ];

  it.each(cases)('%s', (_says, report, notes, ended, [passed, failed, skipped]) => {
    const result = countSuite(report, notes, ended, 60);
    expect([result.passed, result.failed, result.skipped.length]).toEqual([passed, failed, skipped]);
    expect(result.text === '').toBe(failed === 0);
  });
});

describe('the choice of stages', () => {
  const namesOf = (...picked: string[]) => pickStages(picked).map(({ name }) => name);

  it('is all of them where none is named', () => {
    expect(namesOf()).toEqual(stages.map(({ name }) => name));
  });

  it('takes what a stage needs, and keeps the order', () => {
    expect(namesOf('e2e', 'lint')).toEqual(['chromium', 'build', 'lint', 'e2e']);
  });

  it('refuses a name there is not, and says which there are', () => {
    expect(() => namesOf('speed')).toThrow(/"speed"\. There are: chromium, build, types/);
  });
});

describe('the lanes', () => {
  /** Runs stages that each take until another has ended, and tells in order what began and what ended. */
  async function courseOf(...given: [name: string, lane: Lane, until: string, needs?: string[]][]): Promise<string> {
    const course: string[] = [];
    const asked = given.map(([name, lane, , needs = []]): Stage => ({
      name,
      lane,
      needs,
      run: () => Promise.reject(new Error('not asked')),
    }));
    const ended = await runInLanes<string>(asked, async ({ name }, needed) => {
      course.push(`+${[name, ...needed].join('<')}`);
      const [, , until = ''] = given.find(([one]) => one === name) ?? [];
      await setTimeout(1);
      if (until !== '') while (!course.includes(`-${until}`)) await setTimeout(1);
      course.push(`-${name}`);
      return name;
    });
    expect(ended).toEqual(given.map(([name]) => name));
    return course.join(' ');
  }

  it('run beside each other, the stages of each one after the other', async () => {
    const course = await courseOf(
      ['a', 'computes', 'd'],
      ['b', 'computes', ''],
      ['c', 'drives', ''],
      ['d', 'drives', ''],
    );
    expect(course).toBe('+a +c -c +d -d -a +b -b');
  });

  it('wait for what a stage needs of another, and tell it what that came to', async () => {
    expect(await courseOf(['a', 'computes', ''], ['b', 'drives', '', ['a']])).toBe('+a -a +b<a -b');
  });

  it('have each stage below what it needs', () => {
    const above = (at: number) => stages.slice(0, at).map(({ name }) => name);
    stages.forEach(({ needs }, at) => expect(above(at)).toEqual(expect.arrayContaining([...needs])));
    expect(stages.flatMap(({ needs }) => needs).length).toBeGreaterThan(0);
  });
});

describe('the files begun first', () => {
  it('are there, each named once', () => {
    expect(longest.filter((path) => !existsSync(join(root, path)))).toEqual([]);
    expect(new Set(longest).size).toBe(longest.length);
  });
});

describe('the summary', () => {
  const one = (name: string, passed: number, failed: number, skipped: string[]): Finished => ({
    name,
    seconds: 1.25,
    result: { passed, failed, skipped: skipped.map((reason) => ({ test: 'opens', reason })), detail: '', text: '' },
  });
  const lines = (...finished: Finished[]) => summaryOf(finished).split('\n');

  it('ends with one line over all stages', () => {
    expect(lines(one('lint', 1, 0, []), one('unit', 40, 2, [])).at(-1)).toBe('41 passed, 2 failed');
  });

  it('counts what did not run, and says why', () => {
    const said = lines(one('e2e', 3, 0, ['not run here: Electron is not installed']));
    expect(said.at(-1)).toBe('3 passed, 0 failed, 1 skipped');
    expect(said).toContain('not run here: e2e: Electron is not installed (opens)');
  });
});

describe('a program started by the run', () => {
  it('is stopped at its limit, with what it started', async () => {
    await inFolder({ 'beats.txt': '' }, async (folder) => {
      const beats = join(folder, 'beats.txt');
      const child = `setInterval(() => require('node:fs').appendFileSync(process.argv[1], '.'), 20)`;
      const parent = `require('node:child_process').spawn(process.execPath, ['-e', process.argv[1], process.argv[2]]);
        setInterval(() => {}, 1000);`;
      // On a busy machine both may take longer to begin than the limit lasts; a longer one is tried then.
      let length = 0;
      for (let limitS = 2; length === 0 && limitS <= 32; limitS *= 2) {
        expect((await runNode(['-e', parent, child, beats], limitS)).outOfTime).toBe(true);
        length = statSync(beats).size;
      }
      expect(length).toBeGreaterThan(0);
      await setTimeout(300);
      expect(statSync(beats).size).toBe(length);
    });
  });

  it('gives way to others where it is told to', async ({ skip }) => {
    skip(process.platform === 'win32', 'not run here: Windows has no program called nice');
    const asks = ['-p', 'os.getPriority()'];
    const plain = Number((await runNode(asks, 20)).text);
    const giving = Number((await givesWay.run(true, () => runNode(asks, 20))).text);
    expect(giving).toBe(Math.min(19, plain + 5));
  });

  it('gives its exit code and both its streams', async () => {
    const ended = await runNode(['-e', "console.log('out'); console.error('err'); process.exitCode = 3"], 20);
    expect(ended).toMatchObject({ code: 3, outOfTime: false });
    expect(ended.text.split('\n').toSorted()).toEqual(['', 'err', 'out']);
  });
});
