import { inField, RefusedError } from '../../../renderer/engine/errors.ts';
import { convertValue, readQuantity, readUnit } from '../../../renderer/engine/units/index.ts';
import { parseArguments, textArgument } from '../arguments.ts';
import type { Answer, CommandArgument } from '../command.ts';

/** convert "<quantity>" <unit> */
export function convert(args: readonly CommandArgument[]): Answer {
  const { positional } = parseArguments(args, { positional: ['quantity', 'unit'] });
  const typed = textArgument(positional[0], 'quantity');
  const wanted = textArgument(positional[1], 'unit');
  const from = inField('quantity', () => readQuantity(typed));
  const { unit } = inField('unit', () => readTarget(wanted, from));
  return {
    exit: 0,
    result: {
      value: inField('quantity', () => convertValue(from.value, from.unit, unit)),
      unit,
      from: { value: from.value, unit: from.unit },
      kind: from.kind,
    },
  };
}

/** The refusal names both units: the one asked for and the quantity's own. */
function readTarget(text: string, from: ReturnType<typeof readQuantity>): ReturnType<typeof readUnit> {
  try {
    return readUnit(text, from.kind);
  } catch (error) {
    if (!(error instanceof RefusedError)) throw error;
    const own = `"${from.typed}" is a quantity of ${from.kind} in ${from.unit}`;
    if (error.refusal.code !== 'wrong-kind')
      throw new RefusedError({ ...error.refusal, message: `${error.refusal.message} ${own}.` });
    const other = readUnit(text);
    throw new RefusedError({
      ...error.refusal,
      message: `${own}; "${other.unit}" is a unit of ${other.kind}.`,
      value: text,
    });
  }
}
