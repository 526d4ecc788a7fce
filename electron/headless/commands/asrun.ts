import { asRunCsv, asRunText, judgeAsRun } from '../../../renderer/engine/asrun/index.ts';
import { calloutsJson } from '../../../renderer/engine/callout/index.ts';
import { parseArguments, usage } from '../arguments.ts';
import type { Answer, CommandArgument, CommandIo } from '../command.ts';
import { csvInput } from '../input.ts';

const formats = ['json', 'csv', 'text'] as const;

/**
 * asrun FILE.csv --callouts FILE.csv [--tools FILE.csv] [--skip-bad] [--format json|csv|text]; in a batch the object {"csv": "…"} in
 * place of any file.
 */
export async function asrun(args: readonly CommandArgument[], io: CommandIo): Promise<Answer> {
  const { positional, options, flags } = parseArguments(args, {
    positional: ['file'],
    options: ['--callouts', '--tools', '--format'],
    flags: ['--skip-bad'],
  });
  const given = options.get('--format') ?? 'json';
  const format = formats.find((known) => known === given);
  if (format === undefined) throw usage(`Option --format is one of ${formats.join(', ')}.`, given);
  const callouts = options.get('--callouts');
  if (callouts === undefined) throw usage('Option --callouts is missing: the callouts that the records name.');
  const tools = options.get('--tools');
  if ([positional[0], callouts, tools].filter((path) => path === '-').length > 1)
    throw usage('Standard input can stand for one of the files only.', '-');
  const result = judgeAsRun({
    asRun: await csvInput(positional[0], io),
    // In a batch no file has a name: which of them a line is of is told by its option.
    callouts: { file: '--callouts', ...(await csvInput(callouts, io)) },
    ...(tools === undefined ? {} : { tools: { file: '--tools', ...(await csvInput(tools, io)) } }),
    skipBad: flags.has('--skip-bad'),
  });
  const { conforming, nonconforming, indeterminate } = result.summary;
  // Files none of whose rows could be read have nothing in them that conforms.
  const isNothing = conforming === 0 && (result.skipped ?? []).length > 0;
  const exit = nonconforming + indeterminate > 0 || isNothing ? 1 : 0;
  if (format === 'csv') return { exit, result, text: asRunCsv(result) };
  if (format === 'text') return { exit, result, text: asRunText(result) };
  return { exit, result, pieces: () => calloutsJson(result) };
}
