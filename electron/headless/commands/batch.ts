import { RefusedError } from '../../../renderer/engine/errors.ts';
import { readJson } from '../../../renderer/engine/json/readJson.ts';
import { parseArguments, textArgument, usage } from '../arguments.ts';
import type { CommandArgument, CommandIo, Line, Streamed } from '../command.ts';
import { jsonText, refusalOf } from '../document.ts';
import { bytesMax, decode } from '../inputFile.ts';

interface BatchLine {
  exit: 0 | 1 | 2;
  line: string;
}

/** batch FILE.jsonl: each line a command and its arguments, each answered by one line, in order. */
export function batch(args: readonly CommandArgument[], io: CommandIo): Streamed {
  if (io.inBatch) throw usage('A batch cannot be a line of a batch.');
  const path = textArgument(parseArguments(args, { positional: ['file'] }).positional[0], 'file');
  return { lines: answers(path, io) };
}

async function* answers(path: string, io: CommandIo): AsyncGenerator<BatchLine> {
  const inner: CommandIo = { ...io, inBatch: true };
  let row = 0;
  // Blank lines at the end are no lines; one in between is answered, so that answers and lines stay in step.
  let blankRows: number[] = [];
  for await (const line of io.readLines(path)) {
    row += 1;
    if (!isPassedOver(line) && isBlank(line)) {
      blankRows.push(row);
      continue;
    }
    for (const blank of blankRows)
      yield refused(usage('The line is blank: a JSON array of a command and its arguments is asked for.'), blank);
    blankRows = [];
    yield isPassedOver(line) ? refused(tooLarge(line.bytesPassedOver), row) : await answerTo(line, row, path, inner);
  }
}

async function answerTo(bytes: Uint8Array, row: number, path: string, io: CommandIo): Promise<BatchLine> {
  let parts: CommandArgument[];
  try {
    parts = argumentsOf(readJson(decode(bytes, path), { maxBytes: bytesMax }));
  } catch (error) {
    return refused(error, row);
  }
  try {
    const [name, ...args] = parts;
    if (typeof name !== 'string') throw usage('The first entry of a line is the name of a command.', name);
    const given = await io.run(name, args, io);
    if ('lines' in given) throw usage(`"${name}" answers in lines and cannot be a line of a batch.`, name);
    return { exit: given.exit, line: jsonText({ exit: given.exit, result: given.text ?? given.result }) };
  } catch (error) {
    return refused(error);
  }
}

function argumentsOf(value: unknown): CommandArgument[] {
  if (!Array.isArray(value)) throw usage('A line is a JSON array of a command and its arguments.');
  return value.map((part: unknown, index) => {
    if (typeof part === 'string') return part;
    if (typeof part === 'object' && part !== null && !Array.isArray(part)) return part as Record<string, unknown>;
    throw usage(`Entry ${index} of the line is neither a text nor an object.`, part);
  });
}

/** `row` is the batch's own line, and only where the line itself cannot be read: a command's refusal has rows of its own. */
function refused(error: unknown, row?: number): BatchLine {
  const refusal = refusalOf(error);
  return { exit: 2, line: jsonText({ exit: 2, error: row === undefined ? refusal : { ...refusal, row } }) };
}

function isPassedOver(line: Line): line is Exclude<Line, Uint8Array> {
  return !(line instanceof Uint8Array);
}

function tooLarge(bytes: number): RefusedError {
  return new RefusedError({
    code: 'too-large',
    message: `The line holds more than ${bytesMax} bytes, the most that is read of one.`,
    value: bytes,
  });
}

function isBlank(bytes: Uint8Array): boolean {
  return bytes.every((byte) => byte === 0x20 || byte === 0x09 || byte === 0x0d);
}
