import { settingFrom } from '../../../renderer/engine/setting/readSetting.ts';
import { toolSetting } from '../../../renderer/engine/setting/toolSetting.ts';
import { parseArguments, usage } from '../arguments.ts';
import type { Answer, CommandArgument, CommandIo } from '../command.ts';
import { jsonInput } from '../input.ts';

/** setting --file x.json; in a batch the object may stand by itself. */
export async function setting(args: readonly CommandArgument[], io: CommandIo): Promise<Answer> {
  const { positional, options } = parseArguments(args, { positional: ['file?'], options: ['--file'] });
  const [alone] = positional;
  const named = options.get('--file');
  if (alone !== undefined && named !== undefined) throw usage('The file is given twice.', alone);
  const { value, ...origin } = await jsonInput(named ?? alone, io);
  const result = toolSetting(settingFrom(value, origin));
  return { exit: result.decision === 'conforming' ? 0 : 1, result };
}
