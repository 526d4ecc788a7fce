import { inField, RefusedError } from '../../../engine/errors.ts';
import { convertValue, limitIn, readQuantity, showNumber, showQuantity, unitsOf } from '../../../engine/units/index.ts';
import type { Unit } from '../../../engine/units/index.ts';
import type { BenchSheet } from '../benchSheet.ts';

const torqueUnits = unitsOf('torque');
const digits = 6;

const meanings = [
  { value: 'nominal', label: 'a value: half to even' },
  { value: 'minimum', label: 'a least value: never down' },
  { value: 'maximum', label: 'a greatest value: never up' },
] as const;

/** Places after the point that leave a number four figures. */
function decimalsFor(value: number): number {
  return value === 0 ? 0 : Math.max(0, 3 - Math.floor(Math.log10(Math.abs(value))));
}

export const convertSheet: BenchSheet = {
  id: 'convert',
  name: 'Convert a torque',
  fields: [
    { key: 'quantity', label: 'Torque', is: 'quantity', of: 'torque' },
    {
      key: 'unit',
      label: 'Into',
      is: 'choice',
      choices: torqueUnits.map((unit) => ({ value: unit, label: unit })),
    },
    { key: 'meaning', label: 'It is', is: 'choice', choices: meanings },
  ],
  first: { quantity: '45 lbf·ft', unit: 'N·m', meaning: 'nominal' },
  answer(typed) {
    const text = typed['quantity'] ?? '';
    const { value, unit: from } = inField('quantity', () => readQuantity(text, 'torque'));
    const to = targetOf(typed['unit']);
    const factor = convertValue(1, from, to);
    const exact = convertValue(value, from, to);
    const meaning = typed['meaning'];
    const isLimit = meaning === 'minimum' || meaning === 'maximum';
    const shown = isLimit
      ? limitIn(text, meaning, { unit: to, decimals: decimalsFor(exact) })
      : showNumber(exact, digits);
    return {
      lead: `${showQuantity(text, 'as-written')} is`,
      value: `${shown} ${to}`,
      facts: [
        { name: 'To double precision', value: `${exact} ${to}` },
        { name: `One ${from}`, value: `${factor} ${to}` },
      ],
      formulas: [
        {
          formula: `*T* = *T*_[written] · {1 ${from}|1 ${to}}`,
          put: `*T* = ${showNumber(value, 12)} · ${showNumber(factor, 8)} = ${showNumber(exact, digits)} ${to}`,
        },
      ],
      tables: [
        {
          caption: 'The same in every unit',
          heads: ['Unit', 'Value'],
          rows: torqueUnits.map((unit) => [unit, showNumber(convertValue(value, from, unit), digits)]),
        },
      ],
      figures: [],
      queries: [],
      valid: 'any finite torque; what was typed stays the authority.',
      assumed: [],
      sources: [
        {
          text: '1 in = 25.4 mm, 1 lb = 0.45359237 kg, g = 9.80665 m/s²: exact definitions (international yard and pound agreement 1959; CGPM 1901), held against NIST SP 811, appendix B.8.',
          table: null,
        },
      ],
      rounding: isLimit
        ? `${meaning === 'minimum' ? 'Up' : 'Down'} to four figures: a limit is never made laxer by its conversion.`
        : 'Half to even, six figures.',
    };
  },
};

function targetOf(text: string | undefined): Unit {
  const unit = torqueUnits.find((one) => one === text);
  if (unit !== undefined) return unit;
  throw new RefusedError({ code: 'unknown-unit', message: 'Choose the unit to convert into.', field: 'unit' });
}
