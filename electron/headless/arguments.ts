import { RefusedError } from '../../renderer/engine/errors.ts';
import type { CommandArgument } from './command.ts';

interface Form {
  /** Names of the arguments that stand by themselves, in order; all are needed but those named with "?". */
  positional: readonly string[];
  /** Options followed by a value. */
  options?: readonly string[];
  /** Options followed by a value, which may be given several times. */
  lists?: readonly string[];
  /** Options that stand alone. */
  flags?: readonly string[];
}

export interface ParsedArguments {
  positional: CommandArgument[];
  options: Map<string, CommandArgument>;
  lists: Map<string, CommandArgument[]>;
  flags: Set<string>;
}

/**
 * A command's arguments sorted by its form.
 *
 * @throws RefusedError usage: an argument missing, one too many, an option that is unknown, without its value or given twice
 */
export function parseArguments(args: readonly CommandArgument[], form: Form): ParsedArguments {
  const parsed: ParsedArguments = { positional: [], options: new Map(), lists: new Map(), flags: new Set() };
  const { options = [], lists = [], flags = [] } = form;
  for (let index = 0; index < args.length; index += 1) {
    const argument = args[index];
    if (argument === undefined) break;
    if (typeof argument !== 'string' || !argument.startsWith('--')) {
      parsed.positional.push(argument);
      continue;
    }
    if (parsed.options.has(argument) || parsed.flags.has(argument))
      throw usage(`Option ${argument} is given twice.`, argument);
    if (flags.includes(argument)) {
      parsed.flags.add(argument);
      continue;
    }
    if (!options.includes(argument) && !lists.includes(argument)) {
      const known = [...options, ...lists, ...flags];
      throw usage(
        `Option ${argument} is unknown here; ${known.length === 0 ? 'this command takes none' : `known are ${known.join(', ')}`}.`,
        argument,
      );
    }
    const value = args[index + 1];
    if (value === undefined || (typeof value === 'string' && value.startsWith('--')))
      throw usage(`Option ${argument} needs a value.`, argument);
    if (lists.includes(argument)) parsed.lists.set(argument, [...(parsed.lists.get(argument) ?? []), value]);
    else parsed.options.set(argument, value);
    index += 1;
  }
  const needed = form.positional.filter((name) => !name.endsWith('?'));
  const missing = needed[parsed.positional.length];
  if (missing !== undefined) throw usage(`The ${missing} is missing.`).within({ field: missing });
  const extra = parsed.positional[form.positional.length];
  if (extra !== undefined)
    throw usage(`${form.positional.length === 0 ? 'No argument is' : 'One argument too many is'} given.`, extra);
  return parsed;
}

/** An argument that must be a text; an object stands for files only. */
export function textArgument(argument: CommandArgument | undefined, name: string): string {
  if (typeof argument === 'string') return argument;
  throw usage(`The ${name} must be a text.`, argument);
}

export function usage(message: string, value?: unknown): RefusedError {
  return new RefusedError({ code: 'usage', message, ...(value === undefined ? {} : { value }) });
}
