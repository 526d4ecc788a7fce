import type { Refusal } from '../../shared-types/errors.ts';
import { RefusedError } from '../../renderer/engine/errors.ts';
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

/** Anything thrown, as the refusal the contract speaks; what was not foreseen says no more than that. */
export function refusalOf(error: unknown): Refusal {
  if (error instanceof RefusedError) return error.refusal;
  return {
    code: 'internal',
    message: `This program failed: ${error instanceof Error ? error.message : String(error)}`,
  };
}

/**
 * One JSON document. A number that is not finite would become null without a word: it is a fault of this program and said so.
 */
export function jsonText(value: unknown, indent = 0): string {
  return JSON.stringify(
    value,
    (key, part: unknown) => {
      if (typeof part === 'number' && !Number.isFinite(part)) throw new Error(`the result's "${key}" is ${part}`);
      return part;
    },
    indent,
  );
}
