import { beforeAll, describe, expect, it } from 'vitest';
import { type Files, inFolder } from '../support/folder.ts';
import { runBin } from '../support/installed.ts';
import { root } from '../support/tracked.ts';

/** Rule, path, source: one planted fault each. The path matters, since some rooms may do what others may not. */
const faults: readonly (readonly [rule: string, path: string, source: string])[] = [
  ['typescript(no-explicit-any)', 'renderer/store/any.ts', 'export const read = (value: any) => value;'],
  [
    'eslint(no-restricted-properties)',
    'renderer/components/fixed.ts',
    'export const show = (n: number) => n.toFixed(2);',
  ],
  ['eslint(no-restricted-properties)', 'renderer/engine/fixed.ts', 'export const show = (n: number) => n.toFixed(2);'],
  ['eslint(no-restricted-properties)', 'renderer/engine/chance.ts', 'export const draw = () => Math.random();'],
  [
    'eslint(no-restricted-properties)',
    'renderer/features/html.ts',
    'export const fill = (to: Element, text: string) => {\n  to.innerHTML = text;\n};',
  ],
  ['eslint(no-restricted-globals)', 'renderer/engine/clock.ts', 'export const now = () => Date.now();'],
  ['eslint(no-restricted-globals)', 'renderer/engine/node.ts', 'export const folder = process.cwd();'],
  ['eslint(no-restricted-globals)', 'renderer/engine/page.ts', 'export const title = document.title;'],
  ['eslint(no-restricted-globals)', 'renderer/engine/locale.ts', 'export const sorter = new Intl.Collator();'],
  [
    'eslint(no-restricted-imports)',
    'renderer/engine/torque/convert.ts',
    "import convert from 'convert-units';\nexport { convert };",
  ],
  ['eslint(no-console)', 'renderer/engine/log.ts', "console.log('here');\nexport const one = 1;"],
  ['eslint(no-console)', 'electron/log.ts', "console.error('here');\nexport const one = 1;"],
  ['eslint(no-console)', 'tests/engine/log.test.ts', "console.log('here');\nexport const one = 1;"],
  ['eslint(no-eval)', 'renderer/host/eval.ts', 'export const run = (text: string): unknown => eval(text);'],
  [
    'react(no-danger)',
    'renderer/features/Danger.tsx',
    'export const Danger = ({ text }: { text: string }) => <p dangerouslySetInnerHTML={{ __html: text }} />;',
  ],
  [
    'react-hooks(rules-of-hooks)',
    'renderer/features/Hook.tsx',
    "import { useState } from 'react';\nexport function Hook({ on }: { on: boolean }) {\n  if (on) useState(0);\n  return null;\n}",
  ],
  ['jsx-a11y(alt-text)', 'renderer/features/Picture.tsx', "export const Picture = () => <img src='stack.png' />;"],
  [
    'typescript(ban-ts-comment)',
    'renderer/store/ignored.ts',
    "// @ts-\u0069gnore\nexport const torqueNm: number = 'ten';",
  ],
  ['eslint(no-warning-comments)', 'renderer/store/later.ts', '// to\u0064o: finish\nexport const done = false;'],
  [
    'typescript(no-non-null-assertion)',
    'renderer/store/sure.ts',
    'export const first = (list: number[]): number => list[0]!;',
  ],
  [
    'vitest(no-focused-tests)',
    'tests/engine/only.test.ts',
    "import { expect, it } from 'vitest';\nit.only('adds', () => expect(1 + 1).toBe(2));",
  ],
  [
    'vitest(no-disabled-tests)',
    'tests/engine/skip.test.ts',
    "import { expect, it } from 'vitest';\nit.skip('adds', () => expect(1 + 1).toBe(2));",
  ],
  [
    'vitest(expect-expect)',
    'tests/engine/asserts.test.ts',
    "import { it } from 'vitest';\nit('asserts nothing', () => {});",
  ],
  [
    'eslint(max-lines)',
    'renderer/engine/long.ts',
    Array.from({ length: 251 }, (_, index) => `export const line${index} = ${index};`).join('\n'),
  ],
];

/** What is right in one room though it is wrong in another. */
const allowed: Files = {
  'electron/headless/main.ts': "console.log('{}');\nexport const one = 1;",
  'electron/launch/start.ts': "console.log('serving');\nexport const one = 1;",
  'tests/run.ts': "console.log('1 passed, 0 failed');\nexport const one = 1;",
  'renderer/store/when.ts': 'export const now = () => Date.now();',
  'renderer/engine/units/convert.ts': "import convert from 'convert-units';\nexport { convert };",
};

interface Report {
  diagnostics: { code: string; filename: string }[];
  number_of_files: number;
}

async function lint(files: Files): Promise<Report> {
  return inFolder(files, (folder) => {
    const args = ['--config', `${root}/tests/architecture/oxlintrc.json`, '--deny-warnings', '--format', 'json', '.'];
    return JSON.parse(runBin('oxlint', args, folder).text) as Report;
  });
}

describe('the lint check', () => {
  const faulty: Files = Object.fromEntries(faults.map(([, path, source]) => [path, source]));
  const found = new Map<string, Set<string>>();

  beforeAll(async () => {
    const report = await lint({ ...faulty, ...allowed });
    expect(report.number_of_files).toBe(faults.length + Object.keys(allowed).length);
    for (const { filename, code } of report.diagnostics) {
      found.set(filename, (found.get(filename) ?? new Set()).add(code));
    }
  });

  it.each(faults)('reports exactly %s in %s', (rule, path) => {
    expect([...(found.get(path) ?? [])]).toEqual([rule]);
  });

  it.each(Object.keys(allowed))('lets %s be', (path) => {
    expect(found.get(path)).toBeUndefined();
  });
});
