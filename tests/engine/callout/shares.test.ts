/** A file judged in shares of its rows comes to what it does in one go, byte for byte. */
import { describe, expect, it } from 'vitest';
import {
  answerJson,
  areWhole,
  besideRows,
  judgedCalloutsJson,
  shareJson,
  type JudgedShare,
} from '../../../renderer/engine/callout/index.ts';
import type { Refusal } from '../../../shared-types/errors.ts';
import { RefusedError } from '../../../renderer/engine/errors.ts';
import { sharesFor } from '../../../electron/headless/inShares.ts';
import { manyCallouts } from '../../bench/manyCallouts.ts';

interface Asked {
  content: string;
  skipBad: boolean;
}

function gathered<Rest>(pieces: Generator<string, Rest>): { text: string; rest: Rest } {
  let text = '';
  for (;;) {
    const next = pieces.next();
    if (next.done === true) return { text, rest: next.value };
    text += next.value;
  }
}

/** The answer put together, or null where the shares say that they do not come to the whole. */
function inShares(asked: Asked, workers: number): string | null {
  const shares = sharesFor(workers).map((share) => gathered(shareJson({ ...asked, share })));
  const judged = shares.map(({ rest }): JudgedShare => rest);
  if (!areWhole(judged)) return null;
  const rows = shares.map(({ text }) => text).filter((text) => text !== '');
  return `${answerJson.begin}${rows.join(',')}${answerJson.end(besideRows(judged, asked.skipBad))}`;
}

function refusalOf(run: () => unknown): Refusal {
  try {
    run();
  } catch (error) {
    if (error instanceof RefusedError) return error.refusal;
    throw error;
  }
  throw new Error('it is not refused');
}

const plain = manyCallouts(1500, 11);
const [header = '', ...lines] = plain.trimEnd().split('\r\n');

const files: [string, string][] = [
  ['as drawings have it', plain],
  ['with line breaks in cells', plain.replaceAll(/"Sheet (\d+), zone/g, '"Sheet $1,\nzone')],
  ['with blank lines between', [header, ...lines.flatMap((line) => [line, ''])].join('\r\n')],
  ['with semicolons and decimal commas', plain.replaceAll(',', ';').replaceAll(/(\d)\.(\d)/g, '$1,$2')],
  ['shorter than a block', [header, ...lines.slice(0, 5)].join('\n')],
  ['of a header alone', `${header}\n`],
];

describe.each(files)('a file %s', (_, content) => {
  it.each([1, 3])('comes to the same with %i workers', (workers) => {
    const one = gathered(judgedCalloutsJson({ content, skipBad: true }));
    expect(inShares({ content, skipBad: true }, workers)).toBe(one.text);
  });
});

describe('a file with bad rows', () => {
  const bad = lines.map((line, at) =>
    at % 200 === 199 ? (at % 400 === 199 ? `${line},x` : line.replace(/^C/, '=C')) : line,
  );
  const content = [header, ...bad].join('\n');

  it('lists all of them in the order of the lines', () => {
    const one = gathered(judgedCalloutsJson({ content, skipBad: true }));
    expect(one.rest.skipped?.map(({ row }) => row)).toEqual([201, 401, 601, 801, 1001, 1201, 1401]);
    expect(inShares({ content, skipBad: true }, 2)).toBe(one.text);
  });

  it('is refused in the same words', () => {
    const whole = refusalOf(() => gathered(judgedCalloutsJson({ content, skipBad: false })));
    const shared = refusalOf(() => inShares({ content, skipBad: false }, 2));
    expect(shared).toEqual(whole);
    expect(shared.rows).toHaveLength(7);
  });
});

describe('an id that stands twice', () => {
  it('in one share is told', () => {
    const content = [header, ...lines, lines.at(-1)].join('\n');
    const one = gathered(judgedCalloutsJson({ content, skipBad: false })).text;
    expect(one).toContain('"rule":"repeated-id"');
    expect(inShares({ content, skipBad: false }, 1)).toBe(one);
  });

  it('in two shares makes them no whole', () => {
    expect(inShares({ content: [header, ...lines, lines[0]].join('\n'), skipBad: false }, 1)).toBeNull();
  });
});
