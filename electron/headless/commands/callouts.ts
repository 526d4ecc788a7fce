import type { CalloutsResult } from '../../../shared-types/callout.ts';
import {
  calloutsCsv,
  calloutsText,
  judgeCallouts,
  judgedCalloutsJson,
} from '../../../renderer/engine/callout/index.ts';
import { parseArguments, usage } from '../arguments.ts';
import type { Answer, CommandArgument, CommandIo } from '../command.ts';
import { csvInput } from '../input.ts';
import { judgedInShares } from '../inShares.ts';
import { packedWhole } from '../packed.ts';

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
  const asked = { ...(await csvInput(positional[0], io)), skipBad: flags.has('--skip-bad') };
  // Within a batch the answer is a part of a line; of a file it may be longer than a text can be.
  if (format === 'json' && !io.inBatch && typeof positional[0] === 'string') {
    const shared = await judgedInShares(asked);
    if (shared === null) return written(asked);
    return { exit: exitOf(shared.beside), result: shared.beside, pieces: () => shared.blocks };
  }
  const result = judgeCallouts(asked);
  const exit = exitOf(result);
  if (format === 'json') return { exit, result };
  return { exit, result, text: format === 'csv' ? calloutsCsv(result) : calloutsText(result) };
}

/** The answer in JSON, held as bytes until all of it is there: of a file that is refused nothing is written. */
function written(asked: Parameters<typeof judgeCallouts>[0]): Answer {
  const { rest, blocks } = packedWhole(judgedCalloutsJson(asked));
  return { exit: exitOf(rest), result: rest, pieces: () => blocks };
}

/** A file none of whose rows could be read has nothing in it that conforms. */
function exitOf({ summary, skipped = [] }: Pick<CalloutsResult, 'summary' | 'skipped'>): 0 | 1 {
  const { conforming, nonconforming, indeterminate } = summary;
  return nonconforming + indeterminate > 0 || (conforming === 0 && skipped.length > 0) ? 1 : 0;
}
