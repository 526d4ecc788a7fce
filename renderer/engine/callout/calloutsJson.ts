import type { CalloutsResult } from '../../../shared-types/callout.ts';
import type { Finding, FindingSource, JudgedRow } from '../../../shared-types/judged.ts';
import { judgedOneByOne, type AskedCallouts } from './judgeCallouts.ts';

/** Characters of a piece: few enough to hold, more than a write costs. */
const pieceLength = 1 << 18;

/**
 * A judged result as one JSON document, in pieces: it may be longer than a text can be.
 *
 * @throws Error where a number is not finite, which would become null without a word: it is a fault of this program
 */
export function* calloutsJson<Row extends JudgedRow<object>>(result: { rows: readonly Row[] }): Generator<string> {
  const { rows, ...rest } = result;
  yield* inPieces(rows.values(), () => rest);
}

/**
 * Callouts judged and written in one go, none of them held: the pieces are of use only once all have come, for what is refused is told
 * at the end.
 *
 * @returns what stands beside the rows
 * @throws RefusedError as judgeCallouts does
 */
export function* judgedCalloutsJson(given: AskedCallouts): Generator<string, Omit<CalloutsResult, 'rows'>> {
  const judging = judgedOneByOne(given);
  let rest: Omit<CalloutsResult, 'rows'> | null = null;
  function* rows() {
    rest = yield* judging;
  }
  yield* inPieces(rows(), () => rest ?? {});
  if (rest === null) throw new Error('the rows came to no end');
  return rest;
}

function* inPieces(rows: Iterable<JudgedRow<object>>, rest: () => object): Generator<string> {
  const sources = new Map<FindingSource, string>();
  let piece = '{"rows":[';
  let isFirst = true;
  for (const row of rows) {
    refuseNotFinite(row.computed);
    piece += `${isFirst ? '' : ','}${rowJson(row, sources)}`;
    isFirst = false;
    if (piece.length < pieceLength) continue;
    yield piece;
    piece = '';
  }
  yield `${piece}],${JSON.stringify(rest()).slice(1)}\n`;
}

/** Sources are the same for row after row: their text is made once. */
function rowJson(row: JudgedRow<object>, sources: Map<FindingSource, string>): string {
  const { findings, ...plain } = row;
  let texts = '';
  for (const finding of findings) {
    const { source, ...own } = finding;
    texts += `${texts === '' ? '' : ','}${JSON.stringify(own).slice(0, -1)},"source":${sourceJson(source, sources)}}`;
  }
  return `{"id":${JSON.stringify(row.id)},"decision":"${row.decision}","findings":[${texts}],${restOf(plain)}`;
}

function restOf({ id: _id, decision: _decision, ...rest }: Omit<JudgedRow<object>, 'findings'>): string {
  return JSON.stringify(rest).slice(1);
}

function sourceJson(source: Finding['source'], sources: Map<FindingSource, string>): string {
  const known = sources.get(source);
  if (known !== undefined) return known;
  const text = JSON.stringify(source);
  sources.set(source, text);
  return text;
}

function refuseNotFinite(part: object): void {
  for (const key in part) {
    const value: unknown = part[key as keyof typeof part];
    if (typeof value === 'number') {
      if (!Number.isFinite(value)) throw new Error(`the result's "${key}" is ${value}`);
    } else if (typeof value === 'object' && value !== null) refuseNotFinite(value);
  }
}
