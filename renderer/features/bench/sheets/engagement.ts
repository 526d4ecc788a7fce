import { engagementFrom } from '../../../engine/engagement/index.ts';
import { allTables } from '../../../engine/handbook/index.ts';
import { readThread } from '../../../engine/thread/index.ts';
import { readQuantity, showNumber } from '../../../engine/units/index.ts';
import type { Unit } from '../../../engine/units/index.ts';
import type { BenchSheet } from '../benchSheet.ts';
import { given, halfToEven, shownIn, textIn } from '../shown.ts';

export const engagementSheet: BenchSheet = {
  id: 'engagement',
  name: 'Thread engagement',
  fields: [
    { key: 'thread', label: 'Thread', is: 'text', hint: 'unified: limits of metric and UNJ threads are not held' },
    {
      key: 'externalClass',
      label: 'Class of the bolt',
      is: 'choice',
      choices: ['2A', '3A'].map((value) => ({ value, label: value })),
      half: true,
    },
    {
      key: 'internalClass',
      label: 'Class of the nut or hole',
      is: 'choice',
      choices: ['2B', '3B'].map((value) => ({ value, label: value })),
      half: true,
    },
    { key: 'engagement', label: 'Length engaged', is: 'quantity', of: 'length' },
    { key: 'external', label: 'Bolt, tensile strength', is: 'quantity', of: 'stress', optional: true, half: true },
    {
      key: 'internal',
      label: 'Nut or hole, tensile strength',
      is: 'quantity',
      of: 'stress',
      optional: true,
      half: true,
    },
  ],
  first: {
    thread: '1/2-13',
    externalClass: '2A',
    internalClass: '2B',
    engagement: '0.5 in',
    external: '120 ksi',
    internal: '45 ksi',
  },
  paths: { externalUltimate: 'external', internalUltimate: 'internal' },
  answer(typed, units) {
    const result = engagementFrom(
      given({
        thread: textIn(typed, 'thread') ?? '',
        externalClass: typed['externalClass'],
        internalClass: typed['internalClass'],
        engagement: textIn(typed, 'engagement') ?? '',
        externalUltimate: textIn(typed, 'external'),
        internalUltimate: textIn(typed, 'internal'),
      }),
    );
    const thread = readThread(textIn(typed, 'thread') ?? '');
    const isInch = /in|ft/.test(readQuantity(textIn(typed, 'engagement') ?? '', 'length').unit);
    const [length, area, force]: [Unit, Unit, Unit] = isInch ? ['in', 'in2', 'lbf'] : ['mm', 'mm2', 'kN'];
    const { loadsN, requiredEngagementMm: needed, failsFirst, strengthRatio } = result;
    const load = (newtons: number | null): string =>
      newtons === null ? 'its strength is not typed' : shownIn(newtons, 'N', force, units);
    const atMm2 = thread.stressAreaMm2;
    const perMm = result.shearAreaExternalMm2;
    return {
      lead: failsFirst === null ? 'Length at which the bolt breaks first' : 'First fails the',
      value: failsFirst ?? (needed === null ? 'both strengths are needed' : shownIn(needed, 'mm', length, units)),
      ...(failsFirst === null
        ? {}
        : {
            state:
              failsFirst === 'bolt'
                ? { mark: 'conforming' as const, text: 'Conforming: the bolt breaks first' }
                : { mark: 'nonconforming' as const, text: 'Nonconforming: a thread strips first' },
          }),
      facts: [
        {
          name: 'Length needed for the bolt to break first',
          value: needed === null ? 'both strengths are needed' : shownIn(needed, 'mm', length, units),
        },
        { name: 'Bolt breaks at', value: load(loadsN.bolt) },
        { name: 'External thread strips at', value: load(loadsN.externalThread) },
        { name: 'Internal thread strips at', value: load(loadsN.internalThread) },
        { name: 'Shear area, external thread', value: shownIn(result.shearAreaExternalMm2, 'mm2', area, units) },
        { name: 'Shear area, internal thread', value: shownIn(result.shearAreaInternalMm2, 'mm2', area, units) },
        ...(strengthRatio === null ? [] : [{ name: 'J, strength ratio', value: showNumber(strengthRatio) }]),
      ],
      formulas:
        needed === null
          ? []
          : [
              {
                formula: '*L*_[e] = {2 *A*_[t]|*A*_[Ss]/*L*} · max(1, *J*)',
                put: `*L*_[e] = {2 · ${showNumber(atMm2)}|${showNumber(perMm)}/*L*} · ${showNumber(Math.max(1, strengthRatio ?? 1))} = ${showNumber(needed)} mm`,
                note: 'A_Ss is the shear area of the external thread over the length engaged, in mm².',
              },
            ],
      tables: [
        {
          caption: 'Limits of size taken',
          heads: ['Limit', 'Value'],
          rows: [
            ['Major diameter, external, least', shownIn(result.limits.majorExternalMinMm, 'mm', length, units, 5)],
            ['Pitch diameter, external, least', shownIn(result.limits.pitchExternalMinMm, 'mm', length, units, 5)],
            ['Minor diameter, internal, greatest', shownIn(result.limits.minorInternalMaxMm, 'mm', length, units, 5)],
            ['Pitch diameter, internal, greatest', shownIn(result.limits.pitchInternalMaxMm, 'mm', length, units, 5)],
          ],
        },
      ],
      figures: [],
      queries: [],
      valid:
        'shear strength half the tensile strength; loads along the axis, shared evenly by all threads; full threads alone.',
      assumed: result.assumptions,
      sources: result.sources.map(({ number, table, edition, obtained, key }) => ({
        text: `${number}, ${table} (${edition}), ${obtained}`,
        table: allTables.find((held) => held.key === key)?.key ?? null,
      })),
      rounding: halfToEven,
    };
  },
};
