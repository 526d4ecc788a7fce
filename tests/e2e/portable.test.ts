/**
 * The portable program in the browser window: acceptance lines U22 and S25, by what lies in the user's own places afterwards. Every call
 * of the system that makes a file is traced by `npx tsx tests/outside/run.ts`.
 */
import { existsSync, lstatSync, readdirSync } from 'node:fs';
import { createServer } from 'node:net';
import { join } from 'node:path';
import { expect, it } from 'vitest';
import { identity } from '../../shared-types/ipc.ts';
import { scratchFolder } from '../electron/support/site.ts';
import { portableCopy } from './support/portableCopy.ts';
import { workIn } from './support/portableRun.ts';

/** The program has one port only; where a person has it open, this test is not for their window to disturb. */
function portIsFree(): Promise<boolean> {
  return new Promise((resolve) => {
    const probe = createServer();
    probe.on('error', () => resolve(false));
    probe.listen({ host: '127.0.0.1', port: identity.browserPort }, () => probe.close(() => resolve(true)));
  });
}

it('leaves no file outside its own folder, whose path is long', async (ctx) => {
  if (process.platform !== 'linux') return ctx.skip('The places are looked at as Linux has them: not run here');
  if (!(await portIsFree())) return ctx.skip(`Port ${identity.browserPort} is in use: not run here`);
  const copy = await portableCopy(join(scratchFolder(), 'a folder with a long name – and ½ of it odd'));
  const { said, pdf, token } = await workIn(copy, [process.execPath, 'electron/launch/begin.mjs', '--browser']);
  expect(said).toContain(`Portable (by the file bagwright-portable): everything is kept in ${copy.data}.`);
  expect(pdf).toBe('%PDF-');
  // S13: it is told to nobody but the page.
  expect(token).toHaveLength(43);
  expect(said).not.toContain(token);
  expect(copy.strayFiles()).toEqual([]);
  expect(readdirSync(copy.data)).toEqual(expect.arrayContaining(['browser', 'journal', 'snapshots', 'hello.key']));
  expect(existsSync(join(copy.data, 'journal', 'device'))).toBe(true);
  // S25: whatever the program and the browser wrote there is its user's alone.
  const open = readdirSync(copy.data, { recursive: true, encoding: 'utf8' }).filter((name) => {
    const found = lstatSync(join(copy.data, name));
    return !found.isSymbolicLink() && (found.mode & 0o077) !== 0;
  });
  expect(open).toEqual([]);
});
