import { cautionLead, cautionShort } from '../../../renderer/engine/caution.ts';
import { inField } from '../../../renderer/engine/errors.ts';
import { readThread } from '../../../renderer/engine/thread/index.ts';
import { torqueBands } from '../../../renderer/engine/torqueTable/index.ts';
import { parseArguments, textArgument } from '../arguments.ts';
import type { Answer, CommandArgument } from '../command.ts';

/** torquetable "<thread>" [--document "<number>"] */
export function torquetable(args: readonly CommandArgument[]): Answer {
  const { positional, options } = parseArguments(args, { positional: ['thread'], options: ['--document'] });
  const typed = textArgument(positional[0], 'thread');
  const thread = inField('thread', () => readThread(typed));
  const given = options.get('--document');
  const document = given === undefined ? {} : { document: textArgument(given, 'document') };
  const rows = inField('document', () => torqueBands({ thread, ...document }));
  return {
    exit: 0,
    result: {
      rows,
      thread: thread.designation,
      ...(rows.length === 0
        ? { note: `No published value held for ${thread.designation}; none is interpolated.` }
        : {}),
      caution: `${cautionLead} ${cautionShort}`,
    },
  };
}
