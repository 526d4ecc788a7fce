import { jointTask } from '../../../renderer/engine/preload/index.ts';
import { parseArguments, usage } from '../arguments.ts';
import type { Answer, CommandArgument, CommandIo } from '../command.ts';
import { jsonInput } from '../input.ts';

/** preload --file joint.json; in a batch the joint itself, with or without the option. */
export async function preload(args: readonly CommandArgument[], io: CommandIo): Promise<Answer> {
  const { positional, options } = parseArguments(args, { positional: ['joint?'], options: ['--file'] });
  const [bare] = positional;
  const named = options.get('--file');
  if (bare !== undefined && (named !== undefined || typeof bare === 'string'))
    throw usage('The joint is given once, as --file joint.json.', bare);
  const { value, ...origin } = await jsonInput(named ?? bare, io);
  return { exit: 0, result: jointTask(value, origin) };
}
