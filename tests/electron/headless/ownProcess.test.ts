/** Commands that take a file, in a process of their own: the file, standard input, both outputs and the exit. */
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, describe, expect, it } from 'vitest';
import type { Refusal } from '../../../shared-types/errors.ts';
import { put } from '../../support/editJson.ts';
import { input } from './settingInput.ts';
import { runHeadless } from './spawnCommand.ts';

describe('preload', () => {
  it('comes through standard input, in a process of its own', async () => {
    const ran = await runHeadless(
      ['preload', '--file', '-'],
      JSON.stringify({ thread: 'M10', nutFactor: { nominal: 0.2 }, preload: '20 kN' }),
    );
    expect({ exit: ran.exit, stderr: ran.stderr }).toEqual({ exit: 0, stderr: '' });
    expect(JSON.parse(ran.stdout)).toMatchObject({ torqueNm: { seating: { nominal: 40 } } });
  });

  it('refused in a process of its own: exit 2, nothing on standard output', async () => {
    const ran = await runHeadless(['preload', '--file', '-'], '{"thread": "M10"}');
    expect({ exit: ran.exit, stdout: ran.stdout }).toEqual({ exit: 2, stdout: '' });
    expect(JSON.parse(ran.stderr)).toMatchObject({ error: { code: 'missing-field', file: '-', row: 1 } });
  });
});

describe('setting', () => {
  const folder = mkdtempSync(join(tmpdir(), 'bagwright-'));
  afterAll(() => rmSync(folder, { recursive: true }));

  it('reads a file, names its rows, and writes nothing where it refuses', async () => {
    const file = join(folder, 'x.json');
    writeFileSync(file, JSON.stringify(input(put('tool.increment', 0)), null, 2));
    const ran = await runHeadless(['setting', '--file', file]);
    expect(ran).toMatchObject({ exit: 2, stdout: '' });
    const { error } = JSON.parse(ran.stderr) as { error: Refusal };
    expect(error).toMatchObject({ code: 'out-of-range', file, row: 9, field: 'tool.increment', value: 0 });
  });

  it('reads standard input and ends with 1 where nothing conforms', async () => {
    const text = JSON.stringify(input(put('callout', { min: '60 N·m', max: '70 N·m' })));
    const ran = await runHeadless(['setting', '--file', '-'], text);
    expect(ran).toMatchObject({ exit: 1, stderr: '' });
    expect(JSON.parse(ran.stdout)).toMatchObject({ decision: 'nonconforming', setting: { value: 50, unit: 'N·m' } });
  });
});
