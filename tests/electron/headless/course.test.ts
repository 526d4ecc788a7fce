import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, describe, expect, it } from 'vitest';
import type { BagResult } from '../../../shared-types/bag.ts';
import type { CourseResult } from '../../../shared-types/outing.ts';
import { smallPlan } from '../../support/smallPlan.ts';
import { printed } from './inProcess.ts';

const demo = (name: string) => new URL(`../../../data/demo/${name}.json`, import.meta.url).pathname;
const tarn = demo('tarn-array');

const folder = mkdtempSync(join(tmpdir(), 'bagwright-course-'));
afterAll(() => rmSync(folder, { recursive: true }));

function planFile(plan: unknown): string {
  const file = join(folder, 'plan.json');
  writeFileSync(file, JSON.stringify(plan));
  return file;
}

describe('what bag adds of how the outings run', () => {
  it('is each outing’s clock, ledger, chance and proposals, and changes no exit', async () => {
    const run = await printed('bag', tarn);
    expect(run.exit).toBe(0);
    const { course, status } = JSON.parse(run.out) as BagResult & { course: CourseResult };
    expect(status).toBe('optimal');
    expect(course.recount).toEqual([]);
    expect(course.outings.map(({ outing }) => outing)).toEqual(['t1-open', 't2-change', 't3-close']);
    for (const { clock, chance } of course.outings) {
      expect(clock.turnBack?.latestMin).toBe((clock.minutesMax ?? 0) - 6);
      expect(chance?.finish.interval.low).toBeGreaterThan(0.5);
      expect(chance?.finish.probability).toBeGreaterThanOrEqual(chance?.home?.probability ?? 1);
    }
    const problems = course.outings.flatMap((outing) => outing.problems);
    expect(problems).toMatchObject([{ rule: 'loose', step: 't3-head-off', id: 'tarn-fa-head', quantity: 2 }]);
    expect(
      course.ways.filter(({ id }) => id === 'tarn-cg-head').map(({ intervals }) => intervals.at(-1)?.where),
    ).toEqual([{ at: 'place', place: 'head-bracket' }, { at: 'store' }, { at: 'store' }]);
  });

  it('is the same each time, byte for byte', async () => {
    expect((await printed('bag', tarn)).out).toBe((await printed('bag', tarn)).out);
  });

  it('is said in text and in CSV', async () => {
    const text = (await printed('bag', tarn, '--format', 'text')).out.replaceAll(/\n +/g, ' ');
    expect(text).toMatch(/How the outings run.*Out 80 of 95 min; turn back by 89 min: after t1-shroud/s);
    expect(text).toMatch(/Chance of finishing in time: \S+ % \(\S+ to \S+ % with 95 % confidence\)/);
    expect(text).toMatch(/loose: 2 × tarn-fa-head \(step t3-head-off\)\. Give Lead a pouch/);
    const csv = (await printed('bag', tarn, '--format', 'csv')).out.split('\r\n');
    const rows = csv.filter((row) => row.startsWith('course,'));
    expect(rows.some((row) => row.startsWith('course,t3-close,t3-head-off,,tarn-fa-head,'))).toBe(true);
    expect(rows.some((row) => row.includes('Chance of finishing in time'))).toBe(true);
  });

  it('leaves a plan that says nothing of its course alone but for its clock', async () => {
    const run = await printed('bag', planFile(smallPlan()));
    const { course } = JSON.parse(run.out) as { course: CourseResult };
    expect(course.outings.map(({ chance, problems, orders }) => ({ chance, problems, orders }))).toEqual(
      smallPlan().outings.map(() => ({ chance: null, problems: [], orders: [] })),
    );
  });

  it('is written for a plan that cannot be done, too', async () => {
    const plan = JSON.parse(readFileSync(tarn, 'utf8')) as { catalog: { sockets: unknown[] } };
    plan.catalog.sockets = [];
    const run = await printed('bag', planFile(plan));
    expect(run.exit).toBe(1);
    const { course } = JSON.parse(run.out) as { course: CourseResult };
    expect(course.recount).toEqual([]);
    expect(course.outings.map(({ clock }) => clock.endMin)).toEqual([80, 81, 82]);
  });
});
