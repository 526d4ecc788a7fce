import { inField } from '../../../renderer/engine/errors.ts';
import { socketFor } from '../../../renderer/engine/socket/index.ts';
import { parseArguments, textArgument, usage } from '../arguments.ts';
import type { Answer, CommandArgument } from '../command.ts';

const heads = ['hex', 'heavy-hex', 'nut', 'twelve-point', 'hex-socket', 'hexalobular'] as const;

/** socket "<thread>" --head … [--standard "<number>"] */
export function socket(args: readonly CommandArgument[]): Answer {
  const { positional, options } = parseArguments(args, {
    positional: ['thread'],
    options: ['--head', '--standard'],
  });
  const thread = textArgument(positional[0], 'thread');
  const headForm = headOf(options.get('--head'));
  const standard = options.get('--standard');
  return {
    exit: 0,
    result: inField('thread', () =>
      socketFor({
        thread,
        headForm,
        ...(standard === undefined ? {} : { standard: textArgument(standard, 'standard') }),
      }),
    ),
  };
}

function headOf(given: CommandArgument | undefined): (typeof heads)[number] {
  const head = heads.find((name) => name === given);
  if (head !== undefined) return head;
  throw usage(
    given === undefined
      ? `Option --head is missing; it is one of ${heads.join(', ')}.`
      : `Option --head must be one of ${heads.join(', ')}.`,
    given,
  ).within({ field: 'head' });
}
