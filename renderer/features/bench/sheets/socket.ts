import { inField, RefusedError } from '../../../engine/errors.ts';
import { readThread } from '../../../engine/thread/index.ts';
import { socketFor } from '../../../engine/socket/index.ts';
import type { NearOpening } from '../../../engine/socket/near.ts';
import { showNumber } from '../../../engine/units/index.ts';
import type { Unit, UnitsShown } from '../../../engine/units/index.ts';
import type { BenchFigure, BenchSheet, BenchTable } from '../benchSheet.ts';
import { given, shownIn, sourceAt, sourceOf, spanIn, tableSource, textIn } from '../shown.ts';

/** The head forms of which tables are held. */
export const headChoices = [
  { value: 'hex', label: 'hexagon head' },
  { value: 'heavy-hex', label: 'heavy hexagon head' },
  { value: 'nut', label: 'hexagon nut' },
  { value: 'twelve-point', label: 'twelve-point head' },
  { value: 'hex-socket', label: 'hexagon socket' },
  { value: 'hexalobular', label: 'hexalobular socket' },
] as const;

export type HeadChoice = (typeof headChoices)[number]['value'];

export function headOf(text: string | undefined): HeadChoice {
  const head = headChoices.find(({ value }) => value === text);
  if (head !== undefined) return head.value;
  throw new RefusedError({ code: 'missing-field', message: 'Choose the form of the head.', field: 'head' });
}

const goes = (onto: boolean | null): string => (onto === null ? 'not held' : onto ? 'goes on' : 'does not go on');
const used = (inPractice: boolean | null): string => (inPractice === null ? 'not said' : inPractice ? 'yes' : 'no');

/** Sizes near a head, with what decides between them. */
export function nearTable(near: readonly NearOpening[], units: UnitsShown): BenchTable {
  return {
    caption: 'Near sizes',
    heads: [
      'Size',
      'Less the head',
      'On the greatest good head',
      'Most clearance',
      'Turns free at most',
      'Used for one another',
    ],
    rows: near.map((one) => [
      one.nominal,
      `${one.differenceMm > 0 ? '+' : one.differenceMm < 0 ? '−' : ''}${showNumber(Math.abs(one.differenceMm), 3)} mm`,
      goes(one.goesOn),
      one.clearanceMaxMm === null ? 'not held' : shownIn(one.clearanceMaxMm, 'mm', 'mm', units, 3),
      one.freeAngleMaxDeg === null
        ? 'not held'
        : `${showNumber(one.freeAngleMaxDeg, 3)}°${one.slips === true ? ', slips' : ''}`,
      used(one.interchangeableInPractice),
    ]),
  };
}

export const nearSources = [tableSource('wrench-openings-asme-b18.2.2'), tableSource('near-sizes')];

export const fitRounding = 'Clearances and angles: half to even, three figures; sizes as printed.';

export const openingFormulas = (openingMm: number, headMm: number, freeDeg: number) => [
  {
    formula: '*φ* = 30° − arccos({√[3] · *S*|2 *s*})',
    put: `*φ* = 30° − arccos({√[3] · ${showNumber(openingMm, 5)}|2 · ${showNumber(headMm, 5)}}) = ${showNumber(freeDeg, 3)}°`,
    note: 'Greatest opening on the least head: how far a 6-point opening turns before its flats bear on the corners.',
  },
];

export const socketSheet: BenchSheet = {
  id: 'socket',
  name: 'Find a socket',
  fields: [
    { key: 'thread', label: 'Thread, or hexalobular size', is: 'text', hint: 'as "M10", "7/16-20", "T30"' },
    { key: 'head', label: 'Head', is: 'choice', choices: headChoices },
    {
      key: 'standard',
      label: 'Standard',
      is: 'text',
      optional: true,
      hint: 'a document’s number; without it the product’s own standard goes before ISO 272',
    },
  ],
  first: { thread: '7/16-20', head: 'hex' },
  answer(typed, units) {
    const thread = textIn(typed, 'thread') ?? '';
    const headForm = headOf(typed['head']);
    const asked = given({ standard: textIn(typed, 'standard') });
    const found = inField('thread', () => socketFor({ thread, headForm, ...asked }));
    const { head, opening, freeAngleDeg } = found;
    const unit: Unit = found.nominal.endsWith(' in') ? 'in' : 'mm';
    const mm = (value: number | null): string => (value === null ? 'not held' : shownIn(value, 'mm', unit, units, 5));
    const span = (min: number, max: number): string => spanIn({ min, max }, 'mm', unit, units, 5);
    const figures: BenchFigure[] =
      opening === null || head.acrossFlatsMinMm === null
        ? []
        : [
            {
              is: 'hexagons',
              headMm: head.acrossFlatsMinMm,
              openingMm: opening.maxMm,
              freeAngleDeg: freeAngleDeg?.max ?? null,
              words: 'greatest opening on the least head',
            },
          ];
    return {
      lead: headForm === 'hex-socket' || headForm === 'hexalobular' ? 'Take the key or bit' : 'Take the socket',
      value: found.nominal,
      ...(found.slips === null
        ? {}
        : {
            state: found.slips
              ? { mark: 'not-reached', text: 'the loosest pair slips over the corners' }
              : { mark: 'reached', text: 'the loosest pair holds the corners' },
          }),
      facts: [
        ...(head.acrossFlatsMaxMm === null || head.acrossFlatsMinMm === null
          ? [{ name: 'Head, across flats', value: 'limits not held' }]
          : [{ name: 'Head, across flats', value: span(head.acrossFlatsMinMm, head.acrossFlatsMaxMm) }]),
        { name: 'Head, across corners, least', value: mm(head.acrossCornersMinMm) },
        ...(head.referenceAMm === null ? [] : [{ name: 'Dimension A, reference', value: mm(head.referenceAMm) }]),
        { name: 'Opening', value: opening === null ? 'limits not held' : span(opening.minMm, opening.maxMm) },
        ...(freeAngleDeg === null
          ? []
          : [
              {
                name: 'Turns free, 6-point',
                value: `${showNumber(freeAngleDeg.min, 3)}° to ${showNumber(freeAngleDeg.max, 3)}°`,
              },
            ]),
      ],
      formulas:
        opening === null || head.acrossFlatsMinMm === null || freeAngleDeg === null
          ? []
          : openingFormulas(opening.maxMm, head.acrossFlatsMinMm, freeAngleDeg.max),
      tables: found.near.length === 0 ? [] : [nearTable(found.near, units)],
      figures,
      queries: [],
      valid:
        'published heads and inch openings alone; limits of metric openings (ISO 691) and of keys are not held. Where nothing is held, nothing is guessed.',
      assumed: found.near.some(({ interchangeableInPractice }) => interchangeableInPractice !== null)
        ? ['“Used for one another” is common practice, no source.']
        : [],
      sources: [
        headForm === 'hexalobular' ? sourceOf(found.source, found.nominal) : sourceAt(found.source, readThread(thread)),
        ...(opening === null ? [] : [sourceOf(opening.source)]),
        ...(found.near.length === 0 ? [] : [tableSource('near-sizes')]),
      ],
      rounding: fitRounding,
    };
  },
};
