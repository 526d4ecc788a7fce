import type { CalloutsResult } from '../../../shared-types/callout.ts';
import type { JudgedRow } from '../../../shared-types/judged.ts';
import type { Share } from '../sheet/index.ts';
import { judgedShare, type AskedCallouts } from './judgeCallouts.ts';
import { besideRows, type JudgedShare } from './shares.ts';

/**
 * A judged result as one JSON document, in pieces, a few for each row: it may be longer than a text can be.
 *
 * @throws Error where a number is not finite, which would become null without a word: it is a fault of this program
 */
export function* calloutsJson<Row extends JudgedRow<object>>(result: { rows: readonly Row[] }): Generator<string> {
  const { rows, ...beside } = result;
  yield answerJson.begin;
  for (const [at, row] of rows.entries()) {
    if (at > 0) yield ',';
    yield finiteJson(row);
  }
  yield answerJson.end(beside);
}

/**
 * Callouts judged and written in one go, none of them held: the pieces are of use only once all have come, for what is refused is told
 * at the end.
 *
 * @returns what stands beside the rows
 * @throws RefusedError as judgeCallouts does
 */
export function* judgedCalloutsJson(given: AskedCallouts): Generator<string, Omit<CalloutsResult, 'rows'>> {
  yield answerJson.begin;
  const share = yield* shareJson(given);
  const beside = besideRows([share], given.skipBad);
  yield answerJson.end(beside);
  return beside;
}

/**
 * The rows of one share of a file, judged and written, with commas between them.
 *
 * @returns what they come to
 * @throws RefusedError as readTable does
 */
export function* shareJson(given: AskedCallouts & { share?: Share }): Generator<string, JudgedShare> {
  const judging = judgedShare(given);
  for (let between = ''; ; between = ',') {
    const next = judging.next();
    if (next.done === true) return next.value;
    if (between !== '') yield between;
    yield finiteJson(next.value);
  }
}

/** What stands before the rows, and after them. */
export const answerJson = {
  begin: '{"rows":[',
  end: (beside: object): string => `],${finiteJson(beside).slice(1)}\n`,
};

/** One JSON text; whole rows go to the language's own writer, for texts put together from small parts cost more than they save. */
function finiteJson(value: object): string {
  const text = JSON.stringify(value);
  if (text.includes('null')) refuseNotFinite(value);
  return text;
}

/** A number that is not finite would stand as null. What is frozen came out of tables, and was looked at with them. */
function refuseNotFinite(value: unknown): void {
  if (typeof value === 'number' && !Number.isFinite(value)) throw new Error(`a number of the result is ${value}`);
  if (typeof value === 'object' && value !== null && !Object.isFrozen(value))
    for (const part of Object.values(value) as unknown[]) refuseNotFinite(part);
}
