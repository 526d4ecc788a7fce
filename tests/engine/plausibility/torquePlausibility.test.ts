/** Torques with the wrong unit against the published tables, which are read here from their files. */
import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { RefusedError } from '../../../renderer/engine/errors.ts';
import { plausibilityText, torquePlausibility } from '../../../renderer/engine/plausibility/index.ts';

interface Band {
  thread: string;
  min: number;
  max: number;
  unit: string;
}

type Row = Record<string, string | number>;

function rowsOf(key: string): Row[] {
  const file = new URL(`../../../data/handbook/${key}.json`, import.meta.url);
  return (JSON.parse(readFileSync(file, 'utf8')) as { rows: Row[] }).rows;
}

/** "1/4" to "1/4-20": tables without pitches mean every thread of the diameter. */
const coarse = new Map(
  rowsOf('unified-series-asme-b1.1').flatMap((row): [string, string][] =>
    row['series'] === 'UNC' ? [[String(row['size']), `${row['size']}-${row['threads_per_inch']}`]] : [],
  ),
);

function threadOf(row: Row): string {
  if (row['thread'] !== undefined) return String(row['thread']);
  const dash = Number(row['nut_dash_number']);
  const sixteenths: Record<number, string> = { 3: '10', 4: '1/4', 6: '3/8', 8: '1/2', 10: '5/8' };
  const size = String(row['size'] ?? sixteenths[dash] ?? `${dash}/16`);
  return size.startsWith('M') ? size : (coarse.get(size) ?? `no coarse thread of ${size}`);
}

/** Every published band: a pair of columns "…min…", "…max…", or a column alone. */
const published: Band[] = [
  'torque-faa-ac-43.13-coarse',
  'torque-faa-ac-43.13-fine',
  'torque-nasa-a286',
  'torque-nasa-cres',
  'torque-nasa-small',
  'torque-helicopter-nuts-army',
  'torque-army-general',
  'torque-army-table-f1',
].flatMap((key) =>
  rowsOf(key).flatMap((row) =>
    Object.entries(row).flatMap(([column, value]): Band[] => {
      const [, force = '', length = ''] = /_(lbf|ozf)_(in|ft)$/.exec(column) ?? [];
      if (force === '' || typeof value !== 'number' || column.includes('_max_')) return [];
      const other = column.includes('_min_') ? row[column.replace('_min_', '_max_')] : value;
      return [{ thread: threadOf(row), min: value, max: Number(other), unit: `${force}·${length}` }];
    }),
  ),
);

const typed = ({ min, max }: Band, unit: string) => ({ min: `${min} ${unit}`, max: `${max} ${unit}` });

it('reads the tables it is held against', () => {
  expect(published.length).toBeGreaterThan(180);
  expect(published.filter(({ thread }) => thread.startsWith('no '))).toEqual([]);
});

it('no published band is queried, whatever the document', () => {
  const queried = published.filter(
    (band) => torquePlausibility({ thread: band.thread, torque: typed(band, band.unit) }).verdict !== 'within',
  );
  expect(queried).toEqual([]);
});

describe('a mix-up of feet and inches', () => {
  const swapped = published
    .filter(({ unit }) => unit.startsWith('lbf'))
    .map((band) => ({ ...band, wrong: band.unit === 'lbf·in' ? 'lbf·ft' : 'lbf·in' }));

  it('is queried 20 times of 20, in both directions, and the unit that was meant is named', () => {
    const each = Math.floor(swapped.length / 20);
    const twenty = swapped.filter((_, index) => index % each === 0).slice(0, 20);
    expect(twenty).toHaveLength(20);
    expect(new Set(twenty.map(({ wrong }) => wrong)).size).toBe(2);
    for (const band of twenty) {
      const { verdict, meant } = torquePlausibility({ thread: band.thread, torque: typed(band, band.wrong) });
      expect({ ...band, verdict }).toEqual({ ...band, verdict: 'outside' });
      expect(meant).toContain(band.unit);
    }
  });

  it('is queried for every published band', () => {
    const missed = swapped.filter(({ thread, wrong, ...band }) => {
      const { verdict, meant } = torquePlausibility({ thread, torque: typed({ thread, ...band }, wrong) });
      return verdict !== 'outside' || !meant.some((unit) => unit === band.unit);
    });
    expect(missed).toEqual([]);
  });
});

it.each(['N·m', 'cN·m'])('inch-pounds typed as %s are queried for every published band of inch-pounds', (wrong) => {
  const inches = published.filter(({ unit }) => unit === 'lbf·in');
  const missed = inches.filter(
    (band) => torquePlausibility({ thread: band.thread, torque: typed(band, wrong) }).verdict !== 'outside',
  );
  expect(inches.length).toBeGreaterThan(100);
  // Ten times less, or a ninth: no span of a size is that wide.
  expect(missed).toEqual([]);
});

it('N·m for lbf·ft is a slip of a third and queried only where it leaves the span', () => {
  const verdict = (torque: { min: string; max: string }) => torquePlausibility({ thread: '1/2-13', torque }).verdict;
  expect(verdict({ min: '90 N·m', max: '90 N·m' })).toBe('within');
  expect(verdict({ min: '122 N·m', max: '122 N·m' })).toBe('within');
  expect(verdict({ min: '122 lbf·ft', max: '122 lbf·ft' })).toBe('outside');
});

it('the span reaches from the least to the greatest value of all documents, each with its source', () => {
  const { span } = torquePlausibility({ thread: '1/4-28 UNJF-3A', torque: { min: '50 lbf·in', max: '70 lbf·in' } });
  expect(span).toMatchObject({
    least: { printed: '30 lbf·in', matched: 'thread', source: { key: 'torque-faa-ac-43.13-fine' } },
    greatest: { printed: '10 lbf·ft', matched: 'diameter', source: { key: 'torque-army-table-f1' } },
  });
  expect(span?.sources.map(({ key }) => key)).toEqual([
    'torque-faa-ac-43.13-fine',
    'torque-nasa-a286',
    'torque-nasa-cres',
    'torque-helicopter-nuts-army',
    'torque-army-table-f1',
  ]);
});

describe('in words', () => {
  const said = (thread: string, min: string, max: string) =>
    plausibilityText(torquePlausibility({ thread, torque: { min, max } }), {
      thread,
      torque: { min, max },
      units: 'as-written',
    });

  it('asks, names both ends with their sources and the unit meant', () => {
    expect(said('1/4-28', '50 lbf·ft', '70 lbf·ft')).toBe(
      'Is the unit right? 50–70 lbf·ft goes above all that is published for 1/4-28: ' +
        '30 lbf·in [FAA AC 43.13-1B, Table 7-1] to 10 lbf·ft [TM 9-2320-362-14&P, Table F-1, by diameter]. ' +
        'In lbf·in or kgf·cm the same figures would lie within it. A question, not a limit.',
    );
    expect(said('1/2-13', '30 lbf·in', '40 lbf·in')).toMatch(/goes below .* In lbf·ft or N·m the same/);
  });

  it('names no unit where none fits', () => {
    expect(said('M8', '12 N·m', '15 N·m')).toMatch(
      /^12–15 N·m goes below .* by diameter\]\. A question, not a limit\.$/,
    );
    expect(said('10-32', '1 lbf·in', '500 lbf·ft')).toMatch(/goes beyond/);
  });

  it('says that nothing is held, and nothing of what lies within', () => {
    expect(said('M64', '3 N·m', '4 N·m')).toBe(
      'No published value held for M64: whether the unit is right is not checked.',
    );
    expect(said('1/4-28', '50 lbf·in', '70 lbf·in')).toBeNull();
  });
});

it('a torque that begins at nothing is a torque', () => {
  expect(torquePlausibility({ thread: '1/4-28', torque: { min: '0 N·m', max: '5 N·m' } }).verdict).toBe('outside');
});

it.each<[string, string, string, string]>([
  ['1/4-28', '50', '70 lbf·in', 'ambiguous-quantity'],
  ['1/4-28', '50 mm', '70 lbf·in', 'wrong-kind'],
  ['1/4-28', '-5 N·m', '5 N·m', 'out-of-range'],
  ['1/4-28', '70 lbf·in', '50 lbf·in', 'contradiction'],
  ['1/4-', '50 lbf·in', '70 lbf·in', 'unreadable-thread'],
])('%s with %s to %s is refused as %s', (thread, min, max, code) => {
  try {
    torquePlausibility({ thread, torque: { min, max } });
  } catch (error) {
    expect(error).toBeInstanceOf(RefusedError);
    expect((error as RefusedError).refusal.code).toBe(code);
    return;
  }
  expect.fail('not refused');
});
