import { usage } from './arguments.ts';
import type { CommandIo } from './command.ts';
import { jsonText, refusalOf } from './document.ts';
import { readBytes, readLines, readText } from './inputFile.ts';
import { Output } from './output.ts';
import { packed } from './packed.ts';
import { commands } from './registry.ts';
import { runCommand } from './run.ts';
import { usageText } from './usage.ts';

const io: CommandIo = { readText, readBytes, readLines, inBatch: false, run: runCommand };
const out = new Output(process.stdout);
const err = new Output(process.stderr);

process.exitCode = await main(process.argv.slice(2));

async function main(argv: readonly string[]): Promise<number> {
  try {
    const exit = await answer(argv);
    await out.flush();
    if (out.fault !== null) throw new Error(`standard output cannot be written: ${out.fault.message}`);
    return exit;
  } catch (error) {
    await err.write(`${jsonText({ error: refusalOf(error) })}\n`);
    await err.flush();
    return 2;
  }
}

async function answer(argv: readonly string[]): Promise<number> {
  const [name, ...args] = argv;
  if (name === undefined)
    throw usage(`No command is given; known are ${Object.keys(commands).join(', ')}. "--help" tells more.`);
  if (name === '--help') {
    await out.write(usageText());
    return 0;
  }
  if (args.includes('--help') && Object.hasOwn(commands, name)) {
    await out.write(usageText(name));
    return 0;
  }
  const given = await runCommand(name, args, io);
  if ('lines' in given) return writeLines(given.lines);
  if (given.text === undefined && given.pieces !== undefined) {
    for (const block of packed(given.pieces())) if (!(await out.write(block))) break;
    return given.exit;
  }
  await out.write(given.text ?? `${jsonText(given.result, process.stdout.isTTY ? 2 : 0)}\n`);
  return given.exit;
}

/** Lines as they come; the exit is the largest of theirs. */
async function writeLines(lines: AsyncIterable<{ exit: 0 | 1 | 2; line: string }>): Promise<number> {
  let largest = 0;
  let refused = 0;
  for await (const { exit, line } of lines) {
    largest = Math.max(largest, exit);
    if (exit === 2) refused += 1;
    if (!(await out.write(`${line}\n`))) return largest;
  }
  if (refused > 0) {
    await err.write(
      `${jsonText({ error: { code: 'usage', message: `${refused} of the lines are refused; each says why.`, value: refused } })}\n`,
    );
  }
  return largest;
}
