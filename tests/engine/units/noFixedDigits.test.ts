import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { expect, it } from 'vitest';

const root = fileURLToPath(new URL('../../..', import.meta.url));
const rooms = ['renderer', 'electron', 'shared-types'];

it('no shipped source rounds a quantity with toFixed, which rounds binary noise', () => {
  const sources = rooms.flatMap((room) =>
    readdirSync(join(root, room), { recursive: true, encoding: 'utf8' })
      .filter((name) => /\.tsx?$/.test(name) && !name.includes('node_modules'))
      .map((name) => join(room, name)),
  );
  expect(sources.length).toBeGreaterThan(20);
  expect(sources.filter((name) => /\.toFixed\s*\(/.test(readFileSync(join(root, name), 'utf8')))).toEqual([]);
});
