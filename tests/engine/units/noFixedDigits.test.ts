import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { expect, it } from 'vitest';

const root = fileURLToPath(new URL('../../..', import.meta.url));
const rooms = ['renderer/engine', 'renderer/features', 'renderer/components', 'renderer', 'electron', 'shared-types'];

/** What rounds a double by its binary noise, however it is called; dates are written by other means. */
const binaryRounding = /\btoFixed\b|\bNumberFormat\b/;

function sourcesOf(room: string): string[] {
  return readdirSync(join(root, room), { recursive: true, encoding: 'utf8' })
    .filter((name) => /\.tsx?$/.test(name) && !name.includes('node_modules'))
    .map((name) => join(room, name));
}

it.each(rooms)('no source of %s rounds a quantity with toFixed, which rounds binary noise', (room) => {
  const sources = sourcesOf(room);
  expect(sources.length).toBeGreaterThan(5);
  expect(sources.filter((name) => binaryRounding.test(readFileSync(join(root, name), 'utf8')))).toEqual([]);
});

it.each(['value.toFixed(2)', "value['toFixed'](2)", 'Number.prototype.toFixed.call(v, 2)', 'new Intl.NumberFormat()'])(
  'the search finds %s',
  (planted) => {
    expect(planted).toMatch(binaryRounding);
  },
);
