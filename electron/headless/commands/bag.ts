import type { BagResult, ItemWish, Minimised, Tolerance } from '../../../shared-types/bag.ts';
import { bagCsv } from '../../../renderer/engine/bag/bagCsv.ts';
import { bagDocument } from '../../../renderer/engine/bag/figuresBasis.ts';
import { bagText } from '../../../renderer/engine/bag/bagText.ts';
import { planBag } from '../../../renderer/engine/bag/planBag.ts';
import { bagReasons } from '../../../renderer/engine/bag/reasons/bagReasons.ts';
import { planFrom } from '../../../renderer/engine/plan/readPlan.ts';
import { parseArguments, textArgument, usage } from '../arguments.ts';
import type { Answer, CommandArgument, CommandIo } from '../command.ts';
import { jsonInput } from '../input.ts';

const minimised: readonly Minimised[] = ['mass', 'count', 'volume'];
const tolerances: readonly Tolerance[] = ['nothing', 'piece', 'bag'];
const formats = ['json', 'csv', 'text'] as const;

/**
 * bag PLAN.json [--single-loss | --tolerance nothing|piece|bag] [--minimise mass|count|volume] [--keep ID=N …]
 *   [--forbid ID …] [--spare ID=N …] [--time-limit SECONDS] [--reasons] [--format json|csv|text]
 */
export async function bag(args: readonly CommandArgument[], io: CommandIo): Promise<Answer> {
  const { positional, options, lists, flags } = parseArguments(args, {
    positional: ['plan'],
    options: ['--minimise', '--tolerance', '--time-limit', '--format'],
    lists: ['--keep', '--forbid', '--spare'],
    flags: ['--single-loss', '--reasons'],
  });
  const minimise = oneOf('--minimise', options.get('--minimise') ?? 'mass', minimised);
  const format = oneOf('--format', options.get('--format') ?? 'json', formats);
  const timeLimitS = seconds(options.get('--time-limit'));
  const asked = {
    minimise,
    timeLimitS,
    tolerance: toleranceOf(options.get('--tolerance'), flags.has('--single-loss')),
    keep: (lists.get('--keep') ?? []).map((given) => counted('--keep', given)),
    forbid: (lists.get('--forbid') ?? []).map((given) => ({ id: textArgument(given, '--forbid') })),
    spares: (lists.get('--spare') ?? []).map((given) => counted('--spare', given)),
  };
  const { value, ...origin } = await jsonInput(positional[0], io);
  const plan = planFrom(value, origin);
  const result = await planBag(plan, asked);
  const exit = settled(result) ? 0 : 1;
  const { keep, forbid, spares } = asked;
  const wanted = { ...asked, wishes: { keep, forbid, spares } };
  const reasons = flags.has('--reasons') ? await bagReasons(plan, result, wanted) : undefined;
  const document = { ...bagDocument(plan, result), ...(reasons ? { reasons } : {}) };
  if (format === 'json') return { exit, result: document };
  const write = format === 'csv' ? bagCsv : bagText;
  const text = write(plan, result, reasons, document.course);
  return { exit, result: document, text };
}

function settled({ status, problems }: BagResult): boolean {
  return status === 'optimal' && problems.length === 0;
}

function toleranceOf(given: CommandArgument | undefined, singleLoss: boolean): Tolerance {
  const tolerance = given === undefined ? undefined : oneOf('--tolerance', given, tolerances);
  if (singleLoss && tolerance !== undefined && tolerance !== 'piece') {
    throw usage(`--single-loss and --tolerance ${tolerance} contradict each other.`, tolerance);
  }
  return tolerance ?? (singleLoss ? 'piece' : 'nothing');
}

/** "ID=N"; an id may hold "=" itself. */
function counted(option: string, given: CommandArgument): ItemWish {
  const text = textArgument(given, option);
  const [, id, count] = /^(.+)=(\d{1,9})$/.exec(text) ?? [];
  if (id === undefined || count === undefined)
    throw usage(`Option ${option} takes an id and a number, as ${option} ID=2.`, given);
  return { id, quantity: Number(count) };
}

function oneOf<T extends string>(option: string, given: CommandArgument, known: readonly T[]): T {
  const found = known.find((word) => word === given);
  if (found !== undefined) return found;
  throw usage(`Option ${option} is one of ${known.join(', ')}.`, given);
}

function seconds(given: CommandArgument | undefined): number | undefined {
  if (given === undefined) return undefined;
  const value = typeof given === 'string' && /^\d+(\.\d+)?$/.test(given) ? Number(given) : Number.NaN;
  if (Number.isFinite(value) && value > 0) return value;
  throw usage('Option --time-limit takes a number of seconds above 0.', given);
}
