import { inField } from '../../../engine/errors.ts';
import { readThread } from '../../../engine/thread/index.ts';
import { convertValue, showNumber } from '../../../engine/units/index.ts';
import type { Unit, UnitsShown } from '../../../engine/units/index.ts';
import type { BenchFormula, BenchSheet } from '../benchSheet.ts';
import { halfToEven, shownIn, tableSource } from '../shown.ts';

const n = (value: number): string => showNumber(value, 6);

export const threadSheet: BenchSheet = {
  id: 'thread',
  name: 'Read a thread',
  fields: [
    {
      key: 'thread',
      label: 'Thread',
      is: 'text',
      hint: 'as "M10x1.25-6g", "1/4-28 UNF-3A", "#10-32", "0.250-28"',
    },
  ],
  first: { thread: '1/4-28 UNF-3A' },
  answer(typed, units) {
    const thread = inField('thread', () => readThread(typed['thread'] ?? ''));
    const isInch = thread.system === 'unified';
    const [length, area]: [Unit, Unit] = isInch ? ['in', 'in2'] : ['mm', 'mm2'];
    const mm = (value: number): string => shownIn(value, 'mm', length, units as UnitsShown, 5);
    const pitch = thread.threadsPerInch === null ? mm(thread.pitchMm) : `${n(thread.threadsPerInch)} per inch`;
    return {
      lead: 'Read as',
      value: thread.designation,
      facts: [
        { name: 'System and series', value: `${isInch ? 'unified (inch)' : 'ISO metric'}, ${thread.series}` },
        { name: 'Major diameter d', value: mm(thread.majorMm) },
        { name: isInch ? 'Threads' : 'Pitch P', value: pitch },
        ...(isInch ? [{ name: 'Pitch P', value: mm(thread.pitchMm) }] : []),
        { name: 'Pitch diameter d2', value: mm(thread.pitchDiameterMm) },
        { name: 'Minor diameter D1, internal', value: mm(thread.minorDiameterMm) },
        {
          name: 'Root diameter d3, external',
          value: thread.rootDiameterMm === null ? 'none held for UNJ' : mm(thread.rootDiameterMm),
        },
        { name: 'Stress area', value: shownIn(thread.stressAreaMm2, 'mm2', area, units) },
        { name: 'Class and hand', value: `${thread.class ?? 'no class named'}, ${thread.hand}-hand` },
      ],
      formulas: isInch ? inchFormulas(thread) : metricFormulas(thread),
      tables: [],
      figures: [],
      queries: [],
      valid: 'single-start M, UN, UNR and UNJ threads; basic sizes, no limits of size.',
      assumed:
        thread.rootDiameterMm === null
          ? ['Basic diameters and stress area are those of the UN thread: no dimensions of UNJ threads are held.']
          : [],
      sources: isInch
        ? [
            tableSource('unified-series-asme-b1.1', thread),
            { text: 'Profile and stress area: ASME B1.1, the same basic profile as ISO 68-1.', table: null },
          ]
        : [
            tableSource('pitches-iso-262', thread),
            { text: 'Profile: ISO 68-1 and ISO 724; stress area: ISO 898-1, clause on the stress area.', table: null },
          ],
      rounding: `Diameters to five figures, half to even. ${halfToEven}`,
    };
  },
};

type Read = ReturnType<typeof readThread>;

function metricFormulas({
  majorMm: d,
  pitchMm: P,
  pitchDiameterMm,
  rootDiameterMm,
  stressAreaMm2,
}: Read): BenchFormula[] {
  return [
    {
      formula: '*d*_[2] = *d* − 0.64951905 *P*',
      put: `*d*_[2] = ${n(d)} − 0.64951905 · ${n(P)} = ${n(pitchDiameterMm)} mm`,
    },
    {
      formula: '*A*_[s] = {π|4} ({*d*_[2] + *d*_[3]|2})²',
      put: `*A*_[s] = {π|4} ({${n(pitchDiameterMm)} + ${n(rootDiameterMm ?? 0)}|2})² = ${n(stressAreaMm2)} mm²`,
    },
  ];
}

function inchFormulas({ majorMm, threadsPerInch, pitchDiameterMm, stressAreaMm2 }: Read): BenchFormula[] {
  const D = n(majorMm / 25.4);
  const perInch = n(threadsPerInch ?? 0);
  return [
    {
      formula: '*d*_[2] = *D* − {0.64951905|*n*}',
      put: `*d*_[2] = ${D} − {0.64951905|${perInch}} = ${n(pitchDiameterMm / 25.4)} in`,
    },
    {
      formula: '*A*_[t] = {π|4} (*D* − {0.9743|*n*})²',
      put: `*A*_[t] = {π|4} (${D} − {0.9743|${perInch}})² = ${n(convertValue(stressAreaMm2, 'mm2', 'in2'))} in²`,
    },
  ];
}
