import { cautionLead, cautionShort } from '../../../renderer/engine/caution.ts';
import { inField } from '../../../renderer/engine/errors.ts';
import {
  lockingLimits,
  lockingLimitsOf,
  runningTorqueRules,
  wrenchTorqueByDocument,
} from '../../../renderer/engine/locking/index.ts';
import { readThread } from '../../../renderer/engine/thread/index.ts';
import { quantityIn } from '../../../renderer/engine/units/index.ts';
import { parseArguments, textArgument, usage, type ParsedArguments } from '../arguments.ts';
import type { Answer, CommandArgument } from '../command.ts';

/**
 * limits "<thread>" [--locking "<document>"] [--tightening "<torque>" --running "<torque>"]
 *
 * Documents also differ in what running torque does to the tightening torque: every answer carries their rules side by side, and,
 * where both torques are given, what each makes of them.
 */
export function limits(args: readonly CommandArgument[]): Answer {
  const { positional, options } = parseArguments(args, {
    positional: ['thread'],
    options: ['--locking', '--tightening', '--running'],
  });
  const typed = textArgument(positional[0], 'thread');
  const thread = inField('thread', () => readThread(typed));
  const document = options.get('--locking');
  const found =
    document === undefined
      ? listed(lockingLimitsOf(thread), thread.designation)
      : lockingLimits({ thread, document: textArgument(document, 'locking document') });
  return {
    exit: 0,
    result: {
      ...found,
      thread: thread.designation,
      rules: runningTorqueRules(),
      ...wrenchTorque(options),
      caution: `${cautionLead} ${cautionShort}`,
    },
  };
}

function listed(found: ReturnType<typeof lockingLimitsOf>, designation: string) {
  return {
    limits: found,
    ...(found.length === 0 ? { note: `No published value held for ${designation}; none is interpolated.` } : {}),
  };
}

function wrenchTorque(options: ParsedArguments['options']) {
  const tightening = torqueNm(options, 'tightening');
  const running = torqueNm(options, 'running');
  if (tightening === undefined && running === undefined) return {};
  if (tightening === undefined || running === undefined)
    throw usage('Options --tightening and --running are given together or not at all.');
  return {
    wrenchTorque: wrenchTorqueByDocument({ tighteningNm: { min: tightening, max: tightening }, runningNm: running }),
  };
}

function torqueNm(options: ParsedArguments['options'], name: string): number | undefined {
  const given = options.get(`--${name}`);
  if (given === undefined) return undefined;
  return inField(name, () => quantityIn(textArgument(given, `${name} torque`), 'torque', 'N·m'));
}
