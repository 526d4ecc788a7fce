import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { dirname, join, posix } from 'node:path';

/** What the test files of the engine never stand in, or need a browser or a build for. */
const elsewhere = /^tests\/(architecture|browser|e2e|host|mutants)\//;
/** Tests by way of these reach the engine in another process, where no mutant is. */
const apart = ['tests/electron/headless/spawnCommand.ts', 'tests/electron/support/shellUnderTest.ts'];

/**
 * Each takes longer than many mutants together, by way of whole random plans or another program's answers. What they alone
 * would miss must be told by a quick test.
 */
const slow = new Set([
  'tests/engine/records/roundTrip.test.ts',
  'tests/validation/conversionsReference.test.ts',
  'tests/validation/leastBag.test.ts',
]);

/** The test files that import the engine, directly or by way of others, by their path from the root of the tree. */
export function engineTestFiles(root: string): string[] {
  const reached = new Map<string, Set<string>>();

  function reachedFrom(file: string): Set<string> {
    const known = reached.get(file);
    if (known !== undefined) return known;
    const all = new Set([file]);
    reached.set(file, all);
    for (const next of importsOf(root, file)) for (const further of reachedFrom(next)) all.add(further);
    return all;
  }

  return readdirSync(join(root, 'tests'), { recursive: true, encoding: 'utf8' })
    .map((path) => `tests/${path.replaceAll('\\', '/')}`)
    .filter((path) => path.endsWith('.test.ts') && !elsewhere.test(path) && !slow.has(path))
    .filter((path) => {
      const all = [...reachedFrom(path)];
      return all.some((file) => file.startsWith('renderer/engine/')) && !apart.some((file) => all.includes(file));
    })
    .toSorted();
}

/** The files of the tree that a file names in its imports. */
function importsOf(root: string, file: string): string[] {
  const text = readFileSync(join(root, file), 'utf8');
  return [...text.matchAll(/(?:from|import)\s*\(?\s*'(\.[^'?]+\.tsx?)'/g)]
    .map((match) => posix.join(dirname(file), match[1] ?? ''))
    .filter((path) => existsSync(join(root, path)));
}
