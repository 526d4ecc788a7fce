import { RefusedError } from '../../renderer/engine/errors.ts';
import { readJson } from '../../renderer/engine/json/readJson.ts';
import { usage } from './arguments.ts';
import type { CommandArgument, CommandIo } from './command.ts';
import { bytesMax } from './inputFile.ts';

/** A JSON input: from a file with its name and text, for rows; or an object out of a batch line. */
export interface JsonInput {
  value: unknown;
  file?: string;
  text?: string;
}

/** The JSON document an argument stands for: a path, "-" for standard input, or, in a batch, the object itself. */
export async function jsonInput(argument: CommandArgument | undefined, io: CommandIo): Promise<JsonInput> {
  if (argument === undefined) throw usage('The file is missing.');
  if (typeof argument !== 'string') return { value: argument };
  const text = await readText(argument, io);
  return { value: readJson(text, { file: argument, maxBytes: bytesMax }), file: argument, text };
}

/** The CSV an argument stands for: the bytes of a path or "-"; or, in a batch, the text of the object {"csv": "…"}. */
export async function csvInput(
  argument: CommandArgument | undefined,
  io: CommandIo,
): Promise<{ content: Uint8Array | string; file?: string }> {
  if (argument === undefined) throw usage('The file is missing.');
  if (typeof argument === 'string') {
    refuseStandardInput(argument, io);
    return { content: await io.readBytes(argument), file: argument };
  }
  const { csv, ...others } = argument;
  const other = Object.keys(others)[0];
  if (other !== undefined) throw usage(`An object in place of a CSV file holds "csv" alone, not "${other}".`, other);
  if (typeof csv === 'string') return { content: csv };
  throw new RefusedError({
    code: 'wrong-shape',
    message: 'csv: must be a text',
    field: 'csv',
    ...(csv === undefined ? {} : { value: csv }),
  });
}

async function readText(path: string, io: CommandIo): Promise<string> {
  refuseStandardInput(path, io);
  return io.readText(path);
}

function refuseStandardInput(path: string, io: CommandIo): void {
  if (path === '-' && io.inBatch)
    throw usage('Standard input cannot be read by a line of a batch: give the content as an object.', path);
}
