/**
 * Judged rows, with all that stands beside them, as one JSON document, in pieces: it may be longer than a text can be.
 *
 * @throws Error where a number is not finite, which would become null without a word: it is a fault of this program
 */
export function* calloutsJson(result: { rows: readonly { computed: object }[] }): Generator<string> {
  const { rows, ...rest } = result;
  let piece = '{"rows":[';
  for (const [index, row] of rows.entries()) {
    refuseNotFinite(row.computed);
    if (index > 0) piece += ',';
    piece += JSON.stringify(row);
    if (piece.length < pieceLength) continue;
    yield piece;
    piece = '';
  }
  yield `${piece}],${JSON.stringify(rest).slice(1)}\n`;
}

const pieceLength = 1 << 18;

function refuseNotFinite(part: object): void {
  for (const value of Object.values(part) as unknown[]) {
    if (typeof value === 'number' && !Number.isFinite(value)) throw new Error(`a number of the result is ${value}`);
    if (typeof value === 'object' && value !== null) refuseNotFinite(value);
  }
}
