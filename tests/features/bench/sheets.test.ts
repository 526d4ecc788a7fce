import { describe, expect, it } from 'vitest';
import { answerText } from '../../../renderer/features/bench/answerText.ts';
import { fieldsNow, type BenchAnswer, type Typed } from '../../../renderer/features/bench/benchSheet.ts';
import { formulaText } from '../../../renderer/features/bench/formula.ts';
import { outcomeOf } from '../../../renderer/features/bench/outcome.ts';
import { benchSheet, benchSheets } from '../../../renderer/features/bench/sheets/index.ts';
import { cautionLead } from '../../../renderer/engine/caution.ts';
import { tableByKey } from '../../../renderer/engine/handbook/index.ts';
import type { UnitsShown } from '../../../renderer/engine/units/index.ts';

const everyUnits: readonly UnitsShown[] = ['as-written', 'si', 'inch-pound', 'both'];

function answerOf(id: string, typed: Typed = benchSheet(id).first, units: UnitsShown = 'both'): BenchAnswer {
  const outcome = outcomeOf(benchSheet(id), typed, units);
  if (outcome.is !== 'answer') throw new Error(`${id}: ${JSON.stringify(outcome)}`);
  return outcome.answer;
}

const factOf = (answer: BenchAnswer, name: string): string | undefined =>
  answer.facts.find((fact) => fact.name === name)?.value;

const changed = (id: string, more: Typed): Typed => ({ ...benchSheet(id).first, ...more });

describe('every computation of the bench', () => {
  it.each(benchSheets.map(({ id }) => id))(
    '%s says with its example what a result must say, in every choice of units',
    (id) => {
      for (const units of everyUnits) {
        const answer = answerOf(id, undefined, units);
        const text = answerText(benchSheet(id), benchSheet(id).first, answer);
        expect(text).not.toMatch(/undefined|NaN|Infinity|\[object/);
        expect(text).toContain(cautionLead);
        expect(answer.value).not.toBe('');
        expect(answer.valid.length).toBeGreaterThan(10);
        expect(answer.sources.length).toBeGreaterThan(0);
        expect(answer.rounding.length).toBeGreaterThan(5);
        for (const { table } of answer.sources) if (table !== null) expect(tableByKey(table).key).toBe(table);
        for (const { formula, put } of answer.formulas) {
          expect(put).toMatch(/\d/);
          expect(formulaText(formula)).not.toMatch(/[*{}]/);
          expect(formulaText(put)).not.toMatch(/[*{}]/);
        }
      }
    },
  );

  it('has a formula wherever it computes, and none where it only reads tables', () => {
    const without = benchSheets.filter(({ id }) => answerOf(id).formulas.length === 0).map(({ id }) => id);
    expect(without).toEqual(['limits']);
  });

  it('asks for what is missing by its label, and says nothing is wrong with it', () => {
    for (const sheet of benchSheets) {
      const outcome = outcomeOf(sheet, {}, 'both');
      expect(outcome.is).toBe('missing');
      const needed = fieldsNow(sheet, {}).filter(({ optional }) => optional !== true);
      expect(outcome.is === 'missing' && outcome.labels).toEqual(needed.map(({ label }) => label));
    }
  });
});

describe('numbers of the bench', () => {
  it('converts a torque; a limit never to its laxer side', () => {
    expect(answerOf('convert').value).toBe('61.0118 N·m');
    const limit = (meaning: string) => answerOf('convert', { quantity: '45 lbf·ft', unit: 'N·m', meaning }).value;
    expect(limit('minimum')).toBe('61.02 N·m');
    expect(limit('maximum')).toBe('61.01 N·m');
  });

  it('sets a wrench with an offset head: L/(L + E cos θ) of 32.5 lbf·ft, 15.5 in, 2 in, 30° is 29.23', () => {
    const answer = answerOf('setting');
    expect(answer.value).toBe('29.0 lbf·ft (39.3 N·m)');
    expect(answer.formulas[0]?.put).toContain('= 29.23 lbf·ft');
    expect(factOf(answer, 'Over the tool’s deviation')).toBe('30.95–33.53 lbf·ft (41.96–45.46 N·m)');
    expect(answer.state?.mark).toBe('conforming');
    const square = answerOf('setting', changed('setting', { angle: '90 deg' }));
    expect(square.value).toBe('32.5 lbf·ft (44.1 N·m)');
    const straight = answerOf('setting', changed('setting', { offset: '' }));
    expect(straight.value).toBe('32.5 lbf·ft (44.1 N·m)');
    expect(straight.figures.map(({ is }) => is)).toEqual(['band']);
  });

  it('says up to which running torque a mistake about it conforms: 20 to 30 N·m, ± 4 %, set at 25: 4 left out, 3.846 added', () => {
    const answer = answerOf('running-left', {
      ...{ calloutMin: '20 N·m', calloutMax: '30 N·m', toolMin: '10 N·m', toolMax: '50 N·m' },
      ...{ increment: '0.5 N·m', accuracy: '4', running: '3.9 N·m' },
    });
    expect(factOf(answer, 'Left out, conforms up to')).toMatch(/^4\.000 N·m/);
    // 30/1.04 − 25 = 3.84615…, never up.
    expect(factOf(answer, 'Added, conforms up to')).toMatch(/^3\.846 N·m/);
    expect(answer.formulas[0]?.put).toMatch(/= 3\.846 N·m$/);
    expect(answer.state?.text).toMatch(/^Over by 0\.05385 N·m/);
  });

  it('computes preload with its range, its share of proof, and the shortfall against what is asked', () => {
    const M10 = {
      ...{ thread: 'M10', strength: '8.8', by: 'nutFactor', k: '0.2', target: 'torque' },
      ...{ torqueMin: '40 N·m', torqueMax: '40 N·m', scatter: '25', preloadMin: '16 kN' },
    };
    const answer = answerOf('preload', M10);
    expect(answer.value).toMatch(/^20 kN/);
    expect(factOf(answer, 'Least preload')).toMatch(/^15 kN/);
    expect(factOf(answer, 'Greatest preload')).toMatch(/^25 kN/);
    expect(answer.state).toEqual({
      mark: 'nonconforming-under',
      text: expect.stringMatching(/^Least preload 1 kN .*short$/),
    });
    const [figure] = answer.figures;
    if (figure?.is !== 'preload') throw new Error('The plot is missing.');
    expect(figure.plot.curve.at(-1)).toMatchObject({ torqueNm: 40, leastN: 15000, nominalN: 20000, greatestN: 25000 });
    expect(figure.plot.curve[0]).toMatchObject({ torqueNm: 0 });
    // ISO 898-1, Table 7: proof load of M10, 8.8: 33 700 N.
    const proof = figure.plot.limits.find(({ name }) => name === 'proof load');
    expect((proof?.preloadN ?? 0) / 33_700).toBeCloseTo(1, 2);
  });

  it('calls no preload conforming that the fastener does not bear, whatever was asked', () => {
    // 60 N·m at K = 0.2 are 30 kN, with ± 25 % up to 37.5 kN: over the proof load of M10, 8.8, 33.6 kN (580 MPa · 58 mm²).
    const asked = { ...{ thread: 'M10', strength: '8.8', by: 'nutFactor', k: '0.2', target: 'torque' }, scatter: '25' };
    const at = (torque: string) =>
      answerOf('preload', { ...asked, torqueMin: torque, torqueMax: torque, preloadMin: '10 kN' }).state;
    expect(at('60 N·m')).toEqual({ mark: 'nonconforming-over', text: 'Greatest preload past the proof load' });
    expect(at('53 N·m')).toEqual({ mark: 'conforming' });
  });

  it('turns a preload into a torque: T = K D F, 0.2 · 10 mm · 20 kN is 40 N·m', () => {
    const answer = answerOf('preload', {
      thread: 'M10',
      by: 'nutFactor',
      k: '0.2',
      target: 'preload',
      preload: '20 kN',
    });
    expect(answer.value).toMatch(/^40 N·m/);
  });

  it('keeps running torque apart and adds it on the wrench', () => {
    const answer = answerOf('preload', changed('preload', { runningMin: '10 lbf·in', runningMax: '18 lbf·in' }));
    expect(factOf(answer, 'Seating torque')).toMatch(/^30–35 lbf·ft/);
    expect(factOf(answer, 'On the wrench, seating + running')).toMatch(/^30\.83–36\.5 lbf·ft/);
  });

  it('twists a round bar of 12 mm and 250 mm by 8.873° at 100 N·m, and two of them twice as far', () => {
    expect(answerOf('wind-up').value).toBe('8.873°');
    const two = changed('wind-up', { parts: '2', length2: '250 mm', outside2: '12 mm', modulus2: '79.3 GPa' });
    expect(answerOf('wind-up', two).value).toBe('17.75°');
  });

  it('starts loose below its stop limit, and says so where it does not', () => {
    expect(answerOf('release').state?.text).toMatch(/^Under the stop limit by/);
    const tight = answerOf('release', changed('release', { driver: '20 N·m' }));
    expect(tight.state?.text).toMatch(/^Over the stop limit by/);
    expect(tight.queries.join(' ')).toContain('another way to loosen it');
  });

  it('finds the socket of M10: 16 mm, and that 5/8 in does not go on every good head (ISO 4014, ASME B18.2.2)', () => {
    expect(answerOf('socket', { thread: 'M10', head: 'hex' }).value).toBe('16 mm');
    const near = answerOf('near-sizes');
    expect(near.state?.text).toMatch(/^short by 0\.0234 mm/);
  });

  it('puts documents side by side, judges readings against the strictest, and fits no further than the next cycle', () => {
    const answer = answerOf('limits');
    expect(answer.tables[0]?.rows).toHaveLength(3);
    expect(answer.state?.text).toBe('Nonconforming: cycle 5');
    const [figure] = answer.figures;
    if (figure?.is !== 'cycles') throw new Error('The plot is missing.');
    expect(figure.plot.fit?.points.map(({ cycle }) => cycle)).toEqual([1, 2, 3, 4, 5, 6]);
    const few = answerOf('limits', { thread: '1/4-28', readings: '24 lbf·in, 9 lbf·in\n-, 8 lbf·in' });
    expect(few.figures[0]).toMatchObject({ plot: { fit: undefined } });
  });
});

describe('what is refused', () => {
  it.each<[sheet: string, more: Typed, key: string, words: RegExp]>([
    ['convert', { quantity: '45' }, 'quantity', /no unit/],
    ['convert', { quantity: '1,250 lbf·in' }, 'quantity', /1,250/],
    ['convert', { quantity: '45 mm' }, 'quantity', /length/],
    ['thread', { thread: 'Q10' }, 'thread', /Q10/],
    ['socket', { thread: 'M11' }, 'thread', /M11/],
    ['near-sizes', { flats: '15.2 mm' }, 'flats', /No published hex head/],
    ['near-sizes', { opening: 'wide' }, 'opening', /wide/],
    ['setting', { calloutMin: '40 lbf·ft' }, 'calloutMin', /above max/],
    ['setting', { lever: '' }, 'lever', /needs the lever/],
    ['setting', { accuracy: 'four' }, 'accuracy', /plain number/],
    ['setting', { accuracy: '400' }, 'accuracy', /./],
    ['setting', { increment: '0 lbf·ft' }, 'increment', /more than 0/],
    ['setting', { toolMin: '80 lbf·ft' }, 'toolMin', /above this tool/],
    ['preload', { strength: '99.9' }, 'strength', /99\.9/],
    ['preload', { k: '-1' }, 'k', /./],
    ['preload', { kMin: '0.3' }, 'kMin', /./],
    ['preload', { torqueMax: '20 lbf·ft' }, 'torqueMin', /./],
    ['preload', { preloadMin: '3000 mm' }, 'preloadMin', /force/],
    ['limits', { document: 'XYZ-1' }, 'document', /No table of "XYZ-1"/],
    ['limits', { readings: '24 lbf·in, 9 lbf·in, 3' }, 'readings', /Line 1/],
    ['likeliest', { kMin: '0.3' }, 'kMin', /above max/],
    ['release', { frictionThread: '2' }, 'frictionThread', /./],
    ['wind-up', { inside1: '14 mm' }, 'inside1', /below the outside/],
    ['wind-up', { outside1: '0 mm' }, 'outside1', /more than 0/],
    ['engagement', { engagement: '20 in' }, 'engagement', /10 diameters/],
    ['engagement', { thread: 'M10' }, 'thread', /./],
  ])('%s with %o at its own field', (id, more, key, words) => {
    const outcome = outcomeOf(benchSheet(id), changed(id, more), 'both');
    if (outcome.is !== 'refused') throw new Error(`was not refused: ${outcome.is}`);
    expect(outcome.faults.map((fault) => fault.key)).toContain(key);
    expect(outcome.faults.find((fault) => fault.key === key)?.message).toMatch(words);
  });
});

describe('a formula in one line', () => {
  it.each([
    ['*F* = {*T*|*K D*}', 'F = T/(K D)'],
    ['*φ* = 30° − arccos({√[3] · *S*|2 *s*})', 'φ = 30° − arccos((√(3) · S)/(2 s))'],
    ['*d*_[2] = *d* − 0.65 *P*', 'd_2 = d − 0.65 P'],
    ['*J* = {π|32} *D*^[4]', 'J = π/32 D^4'],
  ])('%s', (notation, text) => {
    expect(formulaText(notation)).toBe(text);
  });
});
