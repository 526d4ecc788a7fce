import { engagementFrom } from '../../../renderer/engine/engagement/index.ts';
import { parseArguments, usage } from '../arguments.ts';
import type { Answer, CommandArgument, CommandIo } from '../command.ts';
import { jsonInput } from '../input.ts';

/** engagement --file x.json; as a line of a batch, the object may stand by itself. */
export async function engagement(args: readonly CommandArgument[], io: CommandIo): Promise<Answer> {
  const { positional, options } = parseArguments(args, { positional: ['file?'], options: ['--file'] });
  const [alone] = positional;
  const named = options.get('--file');
  if (alone !== undefined && named !== undefined) throw usage('The file is given twice.', alone);
  const { value, ...origin } = await jsonInput(named ?? alone, io);
  const result = engagementFrom(value, origin);
  return { exit: result.threadFailsBeforeBolt === true ? 1 : 0, result };
}
