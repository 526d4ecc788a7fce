import type { CalloutsResult } from '../../../shared-types/callout.ts';
import type { JudgedRow } from '../../../shared-types/judged.ts';
import { judgedOneByOne, type AskedCallouts } from './judgeCallouts.ts';

/**
 * A judged result as one JSON document, in pieces, a few for each row: it may be longer than a text can be.
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
  let before = '{"rows":[';
  for (const row of rows) {
    yield before;
    yield finiteJson(row);
    before = ',';
  }
  if (before !== ',') yield before;
  yield `],${finiteJson(rest()).slice(1)}\n`;
}

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
