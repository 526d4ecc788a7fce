import { polarMomentMm4, twistDeg } from '../../../engine/torque/windUp.ts';
import { inField, RefusedError } from '../../../engine/errors.ts';
import { quantityIn, showNumber } from '../../../engine/units/index.ts';
import type { BenchField, BenchSheet, Typed } from '../benchSheet.ts';
import { halfToEven, shownIn, textIn } from '../shown.ts';

const counts = ['1', '2', '3', '4'] as const;
const partsOf = (typed: Typed): number => Number(typed['parts'] ?? '1') || 1;

const partFields: readonly BenchField[] = counts.flatMap((count): BenchField[] => {
  const number = Number(count);
  const when = (typed: Typed): boolean => number <= partsOf(typed);
  return [
    { key: `length${count}`, label: `Part ${count}, length L`, is: 'quantity', of: 'length', half: true, when },
    { key: `modulus${count}`, label: `Part ${count}, shear modulus G`, is: 'quantity', of: 'stress', half: true, when },
    {
      key: `outside${count}`,
      label: `Part ${count}, outside diameter D`,
      is: 'quantity',
      of: 'length',
      half: true,
      when,
    },
    {
      key: `inside${count}`,
      label: `Part ${count}, inside diameter d`,
      is: 'quantity',
      of: 'length',
      half: true,
      optional: true,
      when,
    },
  ];
});

interface Part {
  lengthMm: number;
  outsideMm: number;
  insideMm: number;
  shearModulusMPa: number;
}

export const windUpSheet: BenchSheet = {
  id: 'wind-up',
  name: 'Extension wind-up',
  fields: [
    { key: 'torque', label: 'Torque', is: 'quantity', of: 'torque' },
    {
      key: 'parts',
      label: 'Parts between tool and fastener',
      is: 'choice',
      choices: counts.map((count) => ({ value: count, label: count })),
    },
    ...partFields,
  ],
  first: {
    torque: '100 N·m',
    parts: '1',
    length1: '250 mm',
    outside1: '12 mm',
    modulus1: '79.3 GPa',
  },
  answer(typed, units) {
    const torqueNm = above0(typed, 'torque', () => quantityIn(textIn(typed, 'torque') ?? '', 'torque', 'N·m'));
    const parts = Array.from({ length: partsOf(typed) }, (_, index) => partIn(typed, String(index + 1)));
    const twists = parts.map((part) => {
      const polar = polarMomentMm4(part);
      return { part, polar, deg: twistDeg({ torqueNm, part: { ...part, polarMomentMm4: polar } }) };
    });
    const total = twists.reduce((sum, { deg }) => sum + deg, 0);
    const [first] = twists;
    const mm = (value: number): string => shownIn(value, 'mm', 'mm', units);
    return {
      lead: 'The parts twist by',
      value: `${showNumber(total)}°`,
      facts: [
        { name: 'In turns', value: `${showNumber(total / 360)} of a turn` },
        ...(twists.length < 2
          ? []
          : twists.map(({ deg }, index) => ({ name: `Part ${index + 1}`, value: `${showNumber(deg)}°` }))),
      ],
      formulas:
        first === undefined
          ? []
          : [
              {
                formula: '*J* = {π|32} (*D*^[4] − *d*^[4])',
                put: `*J* = {π|32} (${showNumber(first.part.outsideMm)}^[4] − ${showNumber(first.part.insideMm)}^[4]) = ${showNumber(first.polar)} mm⁴`,
                ...(twists.length > 1 ? { note: 'Of part 1; the others likewise.' } : {}),
              },
              {
                formula: '*φ* = Σ {*T L*|*G J*} · {180°|π}',
                put: `*φ* = ${twists
                  .map(
                    ({ part, polar }) =>
                      `{${showNumber(1000 * torqueNm)} · ${showNumber(part.lengthMm)}|${showNumber(part.shearModulusMPa)} · ${showNumber(polar)}}`,
                  )
                  .join(' + ')} · {180°|π} = ${showNumber(total)}°`,
                note: 'Torque in N·mm, lengths in mm, G in MPa.',
              },
            ],
      tables: [
        {
          caption: 'Part by part',
          heads: ['Part', 'Length', 'Outside', 'Inside', 'Twist'],
          rows: twists.map(({ part, deg }, index) => [
            String(index + 1),
            mm(part.lengthMm),
            mm(part.outsideMm),
            part.insideMm === 0 ? 'solid' : mm(part.insideMm),
            `${showNumber(deg)}°`,
          ]),
        },
      ],
      figures: [],
      queries: [],
      valid:
        'elastic, round sections, solid or hollow; drives without play. A turn-of-nut angle read at the tool has this twist in it.',
      assumed: [
        'The shear modulus is as typed; 79.3 GPa for steel is from memory.',
        'Ends and squares are as stiff as the shank.',
      ],
      sources: [
        { text: 'Torsion of a prismatic bar, textbook form (from memory); polar moment by geometry.', table: null },
      ],
      rounding: halfToEven,
    };
  },
};

function partIn(typed: Typed, count: string): Part {
  const length = (key: string): number =>
    above0(typed, `${key}${count}`, () => quantityIn(textIn(typed, `${key}${count}`) ?? '', 'length', 'mm'));
  const outsideMm = length('outside');
  const inside = textIn(typed, `inside${count}`);
  const insideMm = inside === undefined ? 0 : inField(`inside${count}`, () => quantityIn(inside, 'length', 'mm'));
  if (insideMm < 0 || insideMm >= outsideMm)
    throw new RefusedError({
      code: 'contradiction',
      message: `The inside diameter, ${inside ?? ''}, must be below the outside diameter, ${textIn(typed, `outside${count}`) ?? ''}.`,
      field: `inside${count}`,
    });
  return {
    lengthMm: length('length'),
    outsideMm,
    insideMm,
    shearModulusMPa: above0(typed, `modulus${count}`, () =>
      quantityIn(textIn(typed, `modulus${count}`) ?? '', 'stress', 'MPa'),
    ),
  };
}

function above0(typed: Typed, field: string, value: () => number): number {
  const found = inField(field, value);
  if (found > 0) return found;
  throw new RefusedError({
    code: 'out-of-range',
    message: `"${textIn(typed, field) ?? ''}" must be more than 0.`,
    field,
  });
}
