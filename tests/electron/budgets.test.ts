/** What the build and the journal weigh: acceptance line E13, for what can be counted. Times are measured by the scripts of `tests/bench`. */
import { readFileSync, statSync } from 'node:fs';
import { join } from 'node:path';
import { gzipSync } from 'node:zlib';
import { beforeAll, expect, it } from 'vitest';
import { seal } from '../../electron/journal/entry.ts';
import { buildIfNeeded, root, siteFolder, siteMap } from '../../electron/launch/build.ts';
import { readMap } from '../../electron/site/buildMap.ts';
import { readPlan } from '../../renderer/engine/plan/readPlan.ts';
import { recordsOfPlan } from '../../renderer/engine/records/recordsOfPlan.ts';
import { emptyHash } from '../../shared-types/journal.ts';
import type { Change } from '../../shared-types/journal.ts';
import { recordsVersion } from '../../shared-types/records/index.ts';
import { overBudget } from '../support/budgets.ts';
import type { Budget } from '../support/budgets.ts';

beforeAll(() => buildIfNeeded(), 180_000);

const files = () => readMap(siteMap);
const bytesOf = (paths: readonly string[]): Buffer =>
  Buffer.concat(paths.map((path) => readFileSync(join(siteFolder, path))));

/** What the page names itself, and so has to have before it shows anything. */
function firstLoaded(ending: RegExp = /./): string[] {
  const page = readFileSync(join(siteFolder, 'index.html'), 'utf8');
  return [...page.matchAll(/(?:src|href)="\.\/(assets\/[^"]+\.(?:js|css))"/g)].flatMap(([, path = '']) =>
    ending.test(path) ? [path] : [],
  );
}

it.each<[Budget, () => number]>([
  ['first scripts and styles, packed as a server would', () => gzipSync(bytesOf(firstLoaded())).length],
  ['first scripts', () => bytesOf(firstLoaded(/\.js$/)).length],
  ['first styles', () => bytesOf(firstLoaded(/\.css$/)).length],
  ['all scripts', () => sumOf(/\.m?js$/)],
  ['all styles', () => sumOf(/\.css$/)],
  ['all fonts', () => sumOf(/\.woff2?$/)],
  ['the whole page, with fonts and the solver', () => sumOf(/./)],
  ['the shell', () => statSync(join(root, 'dist', 'main', 'main.js')).size],
  ['the promises to the page', () => statSync(join(root, 'dist', 'preload', 'preload.cjs')).size],
  ['journal, one edited step of the demonstration', () => lineBytes([editedStep()])],
  ['journal, 1,000 items brought in', () => lineBytes(thousandItems())],
])('%s is within its budget', (name, count) => {
  expect(overBudget(name, count())).toBeNull();
});

it('names count, record and limit where one is passed', () => {
  expect(overBudget('the promises to the page', 2301)).toBe(
    'the promises to the page: 2301 bytes, recorded 2000, at most 2300 (15 % more)',
  );
  expect(overBudget('the promises to the page', 2300)).toBeNull();
  expect(overBudget('the promises to the page', 0)).toMatch(/nothing was counted/);
});

function sumOf(kind: RegExp): number {
  return files()
    .filter(({ path }) => kind.test(path))
    .reduce((sum, { bytes }) => sum + bytes, 0);
}

/** What one act comes to on the disk. */
function lineBytes(changes: Change[]): number {
  const payload = { title: 'An act', key: '00000000-0000-4000-8000-000000000000', undoable: true, changes };
  const { line } = seal({
    ...{ seq: 1000, deviceId: '0'.repeat(32), utc: '2031-04-05T10:20:30.000Z', tzOffset: 60, user: 'A. Tester' },
    ...{ action: 'edit', payload, schema: recordsVersion, prevHash: emptyHash },
  });
  return line.length;
}

function demoRecords() {
  const { source } = readPlan(readFileSync(join(root, 'data/demo/skua-rock-light.json'), 'utf8'));
  let next = 0;
  const newId = (): string => `00000000-0000-4000-8000-${String((next += 1)).padStart(12, '0')}`;
  return recordsOfPlan(source, { shelfName: 'Crew', taskNamed: 'SR', newId });
}

function editedStep(): Change {
  const [first] = demoRecords().steps;
  if (first === undefined) throw new Error('no step');
  return { table: 'steps', id: first.id, before: { ...first, rev: 1 }, after: { ...first, rev: 2, minutes: 9 } };
}

function thousandItems(): Change[] {
  const { items } = demoRecords();
  return Array.from({ length: 1000 }, (_, at): Change => {
    const item = items[at % items.length];
    if (item === undefined) throw new Error('no item');
    const id = `00000000-0000-4000-9000-${String(at).padStart(12, '0')}`;
    return { table: 'items', id, before: null, after: { ...item, id, rev: 1, code: `${item.code}-${at}` } };
  });
}
