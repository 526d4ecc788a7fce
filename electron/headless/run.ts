import { usage } from './arguments.ts';
import type { Answer, Command, CommandArgument, CommandIo, Streamed } from './command.ts';
import { commands } from './registry.ts';

/** Commands loaded so far: asking the module loader again costs a batch half a millisecond a line. */
const loaded = new Map<string, Command>();

/** Runs one command by its name. Throws what it refuses. */
export async function runCommand(
  name: string,
  args: readonly CommandArgument[],
  io: CommandIo,
): Promise<Answer | Streamed> {
  const entry = Object.hasOwn(commands, name) ? commands[name] : undefined;
  if (entry === undefined)
    throw usage(`Command "${name}" is unknown; known are ${Object.keys(commands).join(', ')}.`, name);
  const command = loaded.get(name) ?? (await entry.load());
  loaded.set(name, command);
  return command(args, io);
}
