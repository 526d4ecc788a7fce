import type { BagResult, Minimised } from '../../../shared-types/bag.ts';
import { bagCsv } from '../../../renderer/engine/bag/bagCsv.ts';
import { bagDocument } from '../../../renderer/engine/bag/figuresBasis.ts';
import { bagText } from '../../../renderer/engine/bag/bagText.ts';
import { planBag } from '../../../renderer/engine/bag/planBag.ts';
import { bagReasons } from '../../../renderer/engine/bag/reasons/bagReasons.ts';
import { RefusedError } from '../../../renderer/engine/errors.ts';
import { planFrom } from '../../../renderer/engine/plan/readPlan.ts';
import { parseArguments, usage } from '../arguments.ts';
import type { Answer, CommandArgument, CommandIo } from '../command.ts';
import { jsonInput } from '../input.ts';

const minimised: readonly Minimised[] = ['mass', 'count', 'volume'];
const formats = ['json', 'csv', 'text'] as const;

/** bag PLAN.json [--minimise mass|count|volume] [--time-limit SECONDS] [--reasons] [--format json|csv|text] */
export async function bag(args: readonly CommandArgument[], io: CommandIo): Promise<Answer> {
  const { positional, options, flags } = parseArguments(args, {
    positional: ['plan'],
    options: ['--minimise', '--time-limit', '--format'],
    flags: ['--single-loss', '--reasons'],
  });
  if (flags.has('--single-loss')) {
    throw new RefusedError({
      code: 'not-available',
      message: '--single-loss: this version does not plan for the loss of a piece; nothing was planned.',
      value: '--single-loss',
    });
  }
  const minimise = oneOf('--minimise', options.get('--minimise') ?? 'mass', minimised);
  const format = oneOf('--format', options.get('--format') ?? 'json', formats);
  const timeLimitS = seconds(options.get('--time-limit'));
  const { value, ...origin } = await jsonInput(positional[0], io);
  const plan = planFrom(value, origin);
  const asked = { minimise, timeLimitS };
  const result = await planBag(plan, asked);
  const exit = settled(result) ? 0 : 1;
  const reasons = flags.has('--reasons') ? await bagReasons(plan, result, asked) : undefined;
  const document = { ...bagDocument(plan, result), ...(reasons ? { reasons } : {}) };
  if (format === 'json') return { exit, result: document };
  const write = format === 'csv' ? bagCsv : bagText;
  const text = write(plan, result, reasons, document.course);
  return { exit, result: document, text };
}

function settled({ status, problems }: BagResult): boolean {
  return status === 'optimal' && problems.length === 0;
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
