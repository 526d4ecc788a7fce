import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { inFolder } from '../support/folder.ts';
import { runBin } from '../support/installed.ts';
import { root } from '../support/tracked.ts';

const check = (source: string) =>
  inFolder({ '.oxfmtrc.json': readFileSync(join(root, '.oxfmtrc.json'), 'utf8'), 'store/a.ts': source }, (folder) =>
    runBin('oxfmt', ['--check', 'store'], folder),
  );

describe('the format check', () => {
  it('passes a file in our format', async () => {
    expect((await check("export const name = 'ratchet';\n")).code).toBe(0);
  });

  it('names a file that is not', async () => {
    const { code, text } = await check('export const name = "ratchet"\n');
    expect(text).toContain('store/a.ts');
    expect(code).toBe(1);
  });
});
