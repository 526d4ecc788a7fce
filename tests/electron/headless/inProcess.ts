import type { Refusal } from '../../../shared-types/errors.ts';
import type { CommandArgument, CommandIo } from '../../../electron/headless/command.ts';
import { jsonText, refusalOf } from '../../../electron/headless/document.ts';
import { readBytes, readText } from '../../../electron/headless/inputFile.ts';
import { runCommand } from '../../../electron/headless/run.ts';

const noFiles: CommandIo = {
  readText: () => Promise.reject(new Error('this command reads no file')),
  readBytes: () => Promise.reject(new Error('this command reads no file')),
  async *readLines() {
    yield* [];
  },
  inBatch: false,
  run: runCommand,
};

export type Told<Result> = { exit: 0 | 1; result: Result } | { exit: 2; error: Refusal };

/** What a command that reads no file answers, as a reader of its JSON gets it. */
export async function told<Result>(name: string, ...args: CommandArgument[]): Promise<Told<Result>> {
  try {
    const given = await runCommand(name, args, noFiles);
    if ('lines' in given) throw new Error('it answered in lines');
    return { exit: given.exit, result: JSON.parse(jsonText(given.result)) as Result };
  } catch (error) {
    return { exit: 2, error: refusalOf(error) };
  }
}

/** What a command that reads files prints on both outputs, and its exit; only that it has a process of its own is left out. */
export async function printed(name: string, ...args: string[]): Promise<{ exit: number; out: string; err: string }> {
  try {
    const given = await runCommand(name, args, { ...noFiles, readText, readBytes });
    if ('lines' in given) throw new Error('it answered in lines');
    return {
      exit: given.exit,
      out: given.text ?? writtenOut(given.pieces?.() ?? [`${jsonText(given.result)}\n`]),
      err: '',
    };
  } catch (error) {
    return { exit: 2, out: '', err: `${jsonText({ error: refusalOf(error) })}\n` };
  }
}

/** Pieces as a reader of standard output gets them. */
function writtenOut(pieces: Iterable<string | Uint8Array>): string {
  return Buffer.concat([...pieces].map((piece) => (typeof piece === 'string' ? Buffer.from(piece) : piece))).toString();
}

/** The result of a command that is to be done. */
export async function resultOf<Result>(name: string, ...args: CommandArgument[]): Promise<Result> {
  const answer = await told<Result>(name, ...args);
  if (answer.exit === 0) return answer.result;
  throw new Error(`${name} ${JSON.stringify(args)} ended with ${answer.exit}: ${JSON.stringify(answer)}`);
}

/** The refusal of a command that is to be refused. */
export async function refusalFrom(name: string, ...args: CommandArgument[]): Promise<Refusal> {
  const answer = await told(name, ...args);
  if (answer.exit === 2) return answer.error;
  throw new Error(`${name} ${JSON.stringify(args)} is not refused: ${JSON.stringify(answer)}`);
}

/** A batch's calls, one after the other, each answered as its line would be. */
export async function toldEach<Result>(name: string, calls: readonly CommandArgument[][]): Promise<Told<Result>[]> {
  const answers: Told<Result>[] = [];
  for (const args of calls) answers.push(await told<Result>(name, ...args));
  return answers;
}

/** The results of calls that are all to be done, whatever they say of conforming. */
export async function resultsOf<Result>(name: string, calls: readonly CommandArgument[][]): Promise<Result[]> {
  return (await toldEach<Result>(name, calls)).map((answer, index) => {
    if (answer.exit !== 2) return answer.result;
    throw new Error(`${name} ${JSON.stringify(calls[index])} is refused: ${JSON.stringify(answer.error)}`);
  });
}
