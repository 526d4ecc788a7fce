/** The real Electron, where its binary and a display are present. It is watched from outside: it refuses debuggers. */
import { spawn } from 'node:child_process';
import { existsSync, readdirSync, statSync } from 'node:fs';
import { join } from 'node:path';
import { beforeAll, describe, expect, it, type TestContext } from 'vitest';
import { mustDropSandbox } from '../../electron/launch/browserArguments.ts';
import { buildIfNeeded, root } from '../../electron/launch/build.ts';
import { electronBinary } from '../../electron/launch/electronBinary.ts';
import { scratchFolder } from './support/site.ts';

const binary = electronBinary();
const hasDisplay =
  process.platform !== 'linux' || ['DISPLAY', 'WAYLAND_DISPLAY'].some((name) => (process.env[name] ?? '') !== '');

function present(ctx: TestContext): string {
  if (binary === null) return ctx.skip('Electron binary not present: not run here');
  if (!hasDisplay) return ctx.skip('No display present: not run here');
  return binary;
}

function start(program: string, data: string, more: string[] = []) {
  const { ELECTRON_RUN_AS_NODE: _asNode, NODE_OPTIONS: _options, ...environment } = process.env;
  const shell = spawn(program, [...more, root, ...(mustDropSandbox() ? ['--no-sandbox'] : [])], {
    env: { ...environment, BAGWRIGHT_DATA: data },
    stdio: ['ignore', 'ignore', 'pipe'],
  });
  let said = '';
  shell.stderr.on('data', (part: Buffer) => (said += String(part)));
  const ended = new Promise<number | null>((resolve) => shell.on('exit', (code) => resolve(code)));
  return { shell, ended, said: () => said };
}

describe('the desktop shell itself', () => {
  beforeAll(async () => {
    if (binary !== null && hasDisplay) await buildIfNeeded();
  });

  it('shows the page, whose database then lies under the program’s own origin; a second copy steps back', async (ctx) => {
    const program = present(ctx);
    const data = scratchFolder();
    const first = start(program, data);
    try {
      const stores = join(data, 'electron', 'IndexedDB');
      await expect
        .poll(() => existsSync(stores) && readdirSync(stores).some((name) => name.startsWith('app_bagwright_0')), {
          timeout: 30_000,
        })
        .toBe(true);
      if (process.platform !== 'win32') expect(statSync(join(data, 'electron')).mode & 0o777).toBe(0o700);
      expect(await start(program, data).ended).toBe(0);
      expect(first.shell.exitCode).toBeNull();
    } finally {
      first.shell.kill();
      await first.ended;
    }
  });

  for (const word of ['--remote-debugging-port=0', '--inspect=0', '--inspect-brk=0']) {
    it(`does not start with ${word}`, async (ctx) => {
      const refused = start(present(ctx), scratchFolder(), [word]);
      expect(await refused.ended).toBe(3);
      expect(refused.said()).toMatch(/does not start with --/);
    });
  }
});
