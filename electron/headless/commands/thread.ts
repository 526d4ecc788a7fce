import { inField } from '../../../renderer/engine/errors.ts';
import { readThread } from '../../../renderer/engine/thread/index.ts';
import { parseArguments, textArgument } from '../arguments.ts';
import type { Answer, CommandArgument } from '../command.ts';

/** thread "<designation>" */
export function thread(args: readonly CommandArgument[]): Answer {
  const { positional } = parseArguments(args, { positional: ['designation'] });
  return { exit: 0, result: inField('designation', () => readThread(textArgument(positional[0], 'designation'))) };
}
