import { existsSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { root } from '../support/tracked.ts';
import { mutants } from './list.ts';

const textOf = (file: string): string => readFileSync(join(root, file), 'utf8');

describe('the list of pivotal lines', () => {
  it('has at least fifteen, each by a name of its own', () => {
    expect(new Set(mutants.map(({ name }) => name)).size).toBe(mutants.length);
    expect(mutants.length).toBeGreaterThanOrEqual(15);
  });

  it.each(mutants)('stands in its file once, and its test is there: $name', ({ file, text, instead, test }) => {
    expect(textOf(file).split(text)).toHaveLength(2);
    expect(instead).not.toBe(text);
    expect(existsSync(join(root, test.file))).toBe(true);
    expect(textOf(test.file)).toContain(test.name);
  });
});
