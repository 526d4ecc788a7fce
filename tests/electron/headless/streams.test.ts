import { spawn } from 'node:child_process';
import { appendFileSync, mkdtempSync, openSync, closeSync, rmSync, truncateSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { commands } from '../../../electron/headless/registry.ts';
import { root } from '../../support/tracked.ts';
import { refusalFrom } from './inProcess.ts';
import { runHeadless, runThroughNpm, type Ran } from './spawnCommand.ts';

let folder = '';
beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), 'headless-'));
});
afterAll(() => {
  rmSync(folder, { recursive: true });
});

function written(name: string, content: string | Uint8Array): string {
  const path = join(folder, name);
  writeFileSync(path, content);
  return path;
}

/** Loaded beside the command: says at its end the most memory it held. */
const peakToStderr = `process.on('exit', () => {
  process.stderr.write('peak ' + process.resourceUsage().maxRSS + ' kB');
});`;

/** Exit 2: nothing on standard output, one JSON object with one field on standard error. */
function errorOf(ran: Ran): Record<string, unknown> {
  expect(ran).toMatchObject({ exit: 2, stdout: '' });
  const document = JSON.parse(ran.stderr) as { error: Record<string, unknown> };
  expect(Object.keys(document)).toEqual(['error']);
  return document.error;
}

describe('through npm, as the contract words it', () => {
  it('a result is one JSON document on standard output, exit 0, nothing on standard error', async () => {
    const ran = await runThroughNpm(['convert', '45 ft-lb', 'Nm']);
    expect(ran).toMatchObject({ exit: 0, stderr: '' });
    const { value, ...rest } = JSON.parse(ran.stdout) as { value: number };
    expect(value).toBeCloseTo(61.01180767491302, 12);
    expect(rest).toEqual({ unit: 'N·m', from: { value: 45, unit: 'lbf·ft' }, kind: 'torque' });
  });

  it('bad input is exit 2, one JSON object on standard error', async () => {
    expect(errorOf(await runThroughNpm(['convert', '1,200 lbf·in', 'N·m']))).toMatchObject({
      code: 'ambiguous-quantity',
      field: 'quantity',
      value: '1,200 lbf·in',
      position: 1,
    });
  });
});

describe('usage', () => {
  it('without a command is refused', async () => {
    const error = errorOf(await runHeadless([]));
    expect(error['code']).toBe('usage');
    expect(error['message']).toContain('No command is given');
  });

  it.each([
    ['frobnicate', [], '"frobnicate" is unknown; known are convert, thread'],
    ['constructor', [], '"constructor" is unknown'],
    ['convert', ['45 N·m', 'lbf·ft', 'mm'], 'too many'],
    ['thread', ['M10', '--verbose'], 'Option --verbose is unknown'],
  ])('%s %j is refused', async (name, args, words) => {
    const { code, message } = await refusalFrom(name, ...args);
    expect(code).toBe('usage');
    expect(message).toContain(words);
  });

  it('--help prints every command as text and exits 0', async () => {
    const ran = await runHeadless(['--help']);
    expect(ran).toMatchObject({ exit: 0, stderr: '' });
    for (const name of Object.keys(commands)) expect(ran.stdout).toMatch(new RegExp(`^  ${name} `, 'm'));
    expect(ran.stdout).toContain('qualified person');
  });
});

describe('files', () => {
  it('a 200 MB file is refused by its size, unread', async () => {
    const path = join(folder, 'huge.json');
    closeSync(openSync(path, 'w'));
    truncateSync(path, 200_000_000);
    const started = performance.now();
    expect(errorOf(await runHeadless(['bag', path]))).toMatchObject({
      code: 'too-large',
      file: path,
      value: 200_000_000,
    });
    expect(performance.now() - started).toBeLessThan(30_000);
  });

  it.each([
    ['a file that is absent', () => join(folder, 'absent.jsonl'), /does not exist/],
    ['a folder', () => folder, /is a folder/],
  ])('%s is refused by name', async (_, path, words) => {
    const error = errorOf(await runHeadless(['batch', path()]));
    expect(error).toMatchObject({ code: 'unreadable-file', file: path() });
    expect(error['message']).toMatch(words);
  });

  it('a plan that is no UTF-8 is refused', async () => {
    const path = written('latin1.json', Uint8Array.of(0x7b, 0x22, 0xe9, 0x22, 0x7d));
    expect(errorOf(await runHeadless(['bag', path]))).toMatchObject({ code: 'unreadable-file', file: path });
    const utf16 = written('utf16.json', Buffer.from('\uFEFF{}', 'utf16le'));
    expect(errorOf(await runHeadless(['bag', utf16]))['message']).toContain('UTF-16');
  });

  it('a plan that breaks off is refused with its row and position', async () => {
    const path = written('broken.json', '{\n  "catalog": {');
    expect(errorOf(await runHeadless(['bag', path]))).toMatchObject({
      code: 'not-json',
      file: path,
      row: 2,
      position: 16,
    });
  });
});

describe('batch', () => {
  it('answers standard input line by line, in order; one bad line stops nothing; the exit is the largest', async () => {
    const ran = await runHeadless(
      ['batch', '-'],
      [
        '["convert","1 in","mm"]',
        'nonsense',
        '',
        '["thread","M10"]',
        '["batch","-"]',
        '["convert","1 nm","mm"]',
        '["thread","1/4-28"]',
        '',
        '',
      ].join('\n'),
    );
    expect(ran.exit).toBe(2);
    const lines = ran.stdout
      .trimEnd()
      .split('\n')
      .map((line) => JSON.parse(line) as { exit: number; result?: object; error?: object });
    expect(lines.map(({ exit }) => exit)).toEqual([0, 2, 2, 0, 2, 2, 0]);
    expect(lines[0]?.result).toMatchObject({ value: 25.4, unit: 'mm' });
    expect(lines[1]?.error).toMatchObject({ code: 'not-json', row: 2, position: 0 });
    expect(lines[2]?.error).toMatchObject({ code: 'usage', row: 3 });
    expect(lines[3]?.result).toMatchObject({ designation: 'M10x1.5' });
    expect(lines[6]?.result).toMatchObject({ designation: '1/4-28 UNF' });
    expect(JSON.parse(ran.stderr)).toMatchObject({ error: { code: 'usage', value: 4 } });
  });

  it.each([
    ['a text without end', '"', 'a'],
    ['blanks alone', ' ', ' '],
  ])('a line too large, of %s, is answered and stops nothing', async (_, head, filling) => {
    const bytes = 33 * 1024 * 1024;
    const line = head + filling.repeat(bytes - head.length);
    const expected = (ran: Ran) => {
      expect(ran.exit).toBe(2);
      const [first, second, third, fourth, ...others] = ran.stdout
        .trimEnd()
        .split('\n')
        .map((text) => JSON.parse(text));
      expect(first).toMatchObject({ exit: 0, result: { designation: 'M10x1.5' } });
      expect(second).toMatchObject({ exit: 2, error: { code: 'too-large', row: 2, value: bytes } });
      expect(third).toMatchObject({ exit: 0, result: { value: 25.4 } });
      expect(fourth).toMatchObject({ exit: 2, error: { code: 'too-large', row: 4, value: bytes } });
      expect(others).toEqual([]);
    };
    const input = `["thread","M10"]\n${line}\n["convert","1 in","mm"]\n${line}`;
    expected(await runHeadless(['batch', '-'], input));
    expected(await runHeadless(['batch', written('large.jsonl', input)]));
  });

  it('a line of any length is passed over in little memory', async () => {
    const path = join(folder, 'endless.jsonl');
    closeSync(openSync(path, 'w'));
    truncateSync(path, 800_000_000);
    appendFileSync(path, '\n["thread","M8"]\n');
    const ran = await runHeadless(['batch', path], '', {
      NODE_OPTIONS: `--import=${written('peak.mjs', peakToStderr)}`,
    });
    expect(ran.exit).toBe(2);
    const [first, second] = ran.stdout
      .trimEnd()
      .split('\n')
      .map((text) => JSON.parse(text));
    expect(first).toMatchObject({ exit: 2, error: { code: 'too-large', row: 1, value: 800_000_000 } });
    expect(second).toMatchObject({ exit: 0, result: { designation: 'M8x1.25' } });
    const peakMb = /peak (\d+) kB/.exec(ran.stderr)?.[1];
    expect(Number(peakMb) / 1000).toBeLessThan(400);
  });

  it('10 000 conversions keep their order and take seconds, not minutes', async () => {
    const path = written(
      'many.jsonl',
      Array.from({ length: 10_000 }, (_, index) => `["convert","${index} in","mm"]\n`).join(''),
    );
    const ran = await runHeadless(['batch', path]);
    expect(ran).toMatchObject({ exit: 0, stderr: '' });
    const values = ran.stdout
      .trimEnd()
      .split('\n')
      .map((line) => (JSON.parse(line) as { result: { value: number } }).result.value);
    expect(values).toHaveLength(10_000);
    expect(values.every((value, index) => Math.abs(value - index * 25.4) <= 1e-12 * value)).toBe(true);
  });

  it('a reader that leaves early ends it without complaint', async () => {
    const path = written('long.jsonl', '["thread","M10"]\n'.repeat(20_000));
    const child = spawn(process.execPath, ['--import', 'tsx', join(root, 'electron/headless/main.ts'), 'batch', path], {
      cwd: root,
    });
    let stderr = '';
    child.stderr.on('data', (chunk: Buffer) => (stderr += chunk.toString()));
    child.stdout.once('data', () => child.stdout.destroy());
    const exit = await new Promise<number | null>((resolve) => child.on('close', resolve));
    expect({ exit, stderr }).toEqual({ exit: 0, stderr: '' });
  });
});
