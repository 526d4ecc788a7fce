import { inField, RefusedError } from '../../../engine/errors.ts';
import { fitOf, heldHeads } from '../../../engine/socket/index.ts';
import { nearOpenings } from '../../../engine/socket/near.ts';
import { sameNominalMm } from '../../../engine/socket/sameNominal.ts';
import { quantityIn, showNumber } from '../../../engine/units/index.ts';
import type { Unit } from '../../../engine/units/index.ts';
import type { BenchAnswer, BenchSheet, Typed } from '../benchSheet.ts';
import { shownIn, sourceOf, spanIn, textIn } from '../shown.ts';
import { fitRounding, headChoices, headOf, nearSources, nearTable, openingFormulas } from './socket.ts';

const hexagons = headChoices.filter(({ value }) => value === 'hex' || value === 'heavy-hex' || value === 'nut');

const openings = [
  { value: 'hex6', label: '6-point' },
  { value: 'hex12', label: '12-point' },
] as const;

export const nearSizesSheet: BenchSheet = {
  id: 'near-sizes',
  name: 'Near-equal sizes',
  fields: [
    { key: 'head', label: 'Head', is: 'choice', choices: hexagons },
    { key: 'flats', label: 'Head across flats', is: 'quantity', of: 'length' },
    { key: 'opening', label: 'Opening to try', is: 'quantity', of: 'length', optional: true },
    {
      key: 'form',
      label: 'Form of the opening',
      is: 'choice',
      choices: openings,
      when: (typed) => textIn(typed, 'opening') !== undefined,
    },
  ],
  first: { head: 'hex', flats: '16 mm', opening: '5/8 in', form: 'hex6' },
  paths: { acrossFlatsMm: 'flats', openingMm: 'opening' },
  answer(typed, units) {
    const headForm = headOf(typed['head']);
    const flatsMm = lengthIn('flats', typed);
    const held = heldHeads.filter((one) => one.headForm === headForm && sameNominalMm(one.nominalMm, flatsMm));
    const head = held.find(({ limits }) => limits !== null) ?? held[0];
    if (head === undefined) {
      const sizes = [...new Set(heldHeads.filter((one) => one.headForm === headForm).map(({ nominal }) => nominal))];
      throw new RefusedError({
        code: 'not-held',
        message: `No published ${headForm} head of ${textIn(typed, 'flats') ?? ''} across flats is held. Held are: ${sizes.join(', ')}.`,
        field: 'flats',
      });
    }
    const unit: Unit = head.nominal.endsWith(' in') ? 'in' : 'mm';
    const mm = (value: number): string => shownIn(value, 'mm', unit, units, 5);
    const span = (min: number, max: number): string => spanIn({ min, max }, 'mm', unit, units, 5);
    const near = nearOpenings(head);
    const tried = textIn(typed, 'opening') === undefined ? null : triedOpening(typed, { headForm, flatsMm, mm, span });
    return {
      lead: tried?.lead ?? 'Near sizes of',
      value: tried?.value ?? head.nominal,
      ...(tried?.state === undefined ? {} : { state: tried.state }),
      facts: [
        {
          name: 'Head, across flats',
          value:
            head.limits === null
              ? `${head.nominal}, limits not held`
              : span(head.limits.acrossFlatsMinMm, head.limits.acrossFlatsMaxMm),
        },
        ...(tried?.facts ?? []),
      ],
      formulas: tried?.formulas ?? [],
      tables: near.length === 0 ? [] : [nearTable(near, units)],
      figures: tried?.figures ?? [],
      queries: tried?.queries ?? [],
      valid:
        'published hexagon heads; inch openings of ASME B18.2.2. “On the greatest good head” compares the least opening with the greatest head.',
      assumed: ['“Used for one another” is common practice, no source.'],
      sources: [sourceOf(head.citation), ...nearSources],
      rounding: fitRounding,
    };
  },
};

function lengthIn(field: 'flats' | 'opening', typed: Typed): number {
  return inField(field, () => quantityIn(textIn(typed, field) ?? '', 'length', 'mm'));
}

type Tried = Pick<BenchAnswer, 'lead' | 'value' | 'facts' | 'formulas' | 'figures' | 'queries' | 'state'>;

function triedOpening(
  typed: Typed,
  x: {
    headForm: ReturnType<typeof headOf>;
    flatsMm: number;
    mm: (value: number) => string;
    span: (min: number, max: number) => string;
  },
): Tried {
  const openingMm = lengthIn('opening', typed);
  const openingForm = typed['form'] === 'hex12' ? 'hex12' : 'hex6';
  const { fit, reason } = fitOf({ headForm: x.headForm, acrossFlatsMm: x.flatsMm, openingForm, openingMm });
  const value = textIn(typed, 'opening') ?? '';
  if (fit === null)
    return { lead: 'No published limits for', value, facts: [], formulas: [], figures: [], queries: [reason] };
  const { freeAngleDeg } = fit;
  return {
    lead: fit.goesOn ? 'Goes on every good head' : 'Does not go on every good head',
    value,
    state: fit.goesOn
      ? { mark: 'reached', text: 'goes on' }
      : { mark: 'not-reached', text: `short by ${x.mm(-fit.clearanceMm)}` },
    facts: [
      { name: 'Opening', value: x.span(fit.openingMinMm, fit.openingMaxMm) },
      { name: 'Clearance, least and most', value: `${signed(fit.clearanceMm)} to ${signed(fit.clearanceMaxMm)} mm` },
      ...(freeAngleDeg === null
        ? []
        : [
            {
              name: 'Turns free, 6-point',
              value: `${showNumber(freeAngleDeg.min, 3)}° to ${showNumber(freeAngleDeg.max, 3)}°`,
            },
          ]),
      ...(fit.slips === null ? [] : [{ name: 'Loosest pair', value: fit.slips ? 'slips over the corners' : 'holds' }]),
    ],
    formulas: freeAngleDeg === null ? [] : openingFormulas(fit.openingMaxMm, fit.headMinMm, freeAngleDeg.max),
    figures: [
      {
        is: 'hexagons',
        headMm: fit.headMinMm,
        openingMm: fit.openingMaxMm,
        freeAngleDeg: freeAngleDeg?.max ?? null,
        words: 'greatest opening on the least head',
      },
    ],
    queries: [],
  };
}

function signed(value: number): string {
  return `${value < 0 ? '−' : ''}${showNumber(Math.abs(value), 3)}`;
}
