import { calloutsCsv, calloutsJson, calloutsText, judgeCallouts } from '../../../renderer/engine/callout/index.ts';
import { parseArguments, usage } from '../arguments.ts';
import type { Answer, CommandArgument, CommandIo } from '../command.ts';
import { csvInput } from '../input.ts';

const formats = ['json', 'csv', 'text'] as const;

/** callouts FILE.csv [--skip-bad] [--format json|csv|text]; in a batch the object {"csv": "…"} in place of the file. */
export async function callouts(args: readonly CommandArgument[], io: CommandIo): Promise<Answer> {
  const { positional, options, flags } = parseArguments(args, {
    positional: ['file'],
    options: ['--format'],
    flags: ['--skip-bad'],
  });
  const given = options.get('--format') ?? 'json';
  const format = formats.find((known) => known === given);
  if (format === undefined) throw usage(`Option --format is one of ${formats.join(', ')}.`, given);
  const result = judgeCallouts({ ...(await csvInput(positional[0], io)), skipBad: flags.has('--skip-bad') });
  const { conforming, nonconforming, indeterminate } = result.summary;
  // A file none of whose rows could be read has nothing in it that conforms.
  const isNothing = conforming === 0 && (result.skipped ?? []).length > 0;
  const exit = nonconforming + indeterminate > 0 || isNothing ? 1 : 0;
  if (format === 'csv') return { exit, result, text: calloutsCsv(result) };
  if (format === 'text') return { exit, result, text: calloutsText(result) };
  return { exit, result, pieces: () => calloutsJson(result) };
}
