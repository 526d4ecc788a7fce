import { appendFileSync } from 'node:fs';
import { expect } from 'vitest';

/** One printed value that a computed one was held against. */
export interface Compared {
  document: string;
  table: string;
  /** The test that compared. */
  where: string;
  computed: number;
  printed: string;
  off: number;
  /** Half of the last digit printed, or the tolerance that the check states. */
  tolerance: number;
  /** Why the print misses its own formula, where that is known; `tolerance` is then how far. */
  miss?: string;
}

/** The report names a file here; a plain run of the tests writes nothing. */
export const comparedFileVariable = 'BAGWRIGHT_COMPARED_FILE';

interface Document {
  name: string;
  source: { number: string; table: string };
  text: string;
}

/** Every test file has modules of its own, so these are the documents of one test file. */
const read: Document[] = [];

export function noteDocument(document: Document): void {
  if (!read.some(({ name }) => name === document.name)) read.push(document);
}

/** Keeps a comparison for the report. */
export function noteCompared(compared: Omit<Compared, 'document' | 'table' | 'where'>, from?: Document['source']): void {
  const path = process.env[comparedFileVariable];
  if (path === undefined) return;
  const { testPath = '', currentTestName = '' } = expect.getState();
  const file = testPath.split('/').at(-1) ?? '';
  const { number, table } = from ?? documentOf(currentTestName, compared.printed) ?? { number: file, table: 'several' };
  const line: Compared = { document: number, table, where: `${file}: ${currentTestName}`, ...compared };
  appendFileSync(path, `${JSON.stringify(line)}\n`);
}

/** Which of the documents a test file read: the one its test names, else the only one, else the only one with this print. */
function documentOf(testName: string, printed: string): Document['source'] | undefined {
  const named = read.filter(({ name }) => testName.includes(name));
  const [longest] = named.toSorted((a, b) => b.name.length - a.name.length);
  if (longest !== undefined) return longest.source;
  const [only, second] = read.length === 1 ? read : read.filter(({ text }) => text.includes(JSON.stringify(printed)));
  return second === undefined ? only?.source : undefined;
}
