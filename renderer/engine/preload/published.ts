import type { JointInput, JointSource, PublishedFactor } from '../../../shared-types/joint.ts';
import { citationOf, preloadTables, torqueTables } from '../handbook/index.ts';
import { atLeast, atMost } from '../tolerance.ts';

const nutFactors = torqueTables['nut-factors'];
const uncertainty = preloadTables['preload-uncertainty'];

/** Every published nut factor with its condition. Where sources differ, all stand; none is a default. */
export const publishedNutFactors: readonly PublishedFactor[] = nutFactors.rows.map((row) => ({
  of: 'nutFactor',
  condition: row.condition,
  min: row.K ?? row.K_min ?? Number.NaN,
  max: row.K ?? row.K_max ?? Number.NaN,
  basis: row.source_row,
  source: sourceOf(nutFactors, row.source_row),
  notes: nutFactors.notes,
}));

/** Every published scatter of preload, by the method of tightening. */
export const publishedScatter: readonly PublishedFactor[] = uncertainty.rows.map((row) => ({
  of: 'scatter',
  condition: row.method,
  min: row.uncertainty_percent / 100,
  max: row.uncertainty_percent / 100,
  basis: row.basis,
  source: sourceOf(uncertainty, row.basis),
  notes: uncertainty.notes,
}));

/** The published factors that are just what is given; a printed range holds all between its ends. */
export function publishedFor({ nutFactor, scatter }: Pick<JointInput, 'nutFactor' | 'scatter'>): PublishedFactor[] {
  const equal = (given: number | undefined, among: readonly PublishedFactor[]): PublishedFactor[] =>
    given === undefined ? [] : among.filter(({ min, max }) => atLeast(given, min) && atMost(given, max));
  return [...equal(nutFactor?.nominal, publishedNutFactors), ...equal(scatter, publishedScatter)];
}

/** A row that is recalled says so in its basis. */
function sourceOf(table: Parameters<typeof citationOf>[0], basis: string): JointSource {
  const { key: _key, ...source } = citationOf(
    table,
    basis.startsWith('from memory') ? { obtained_row: 'from memory' } : {},
  );
  return source;
}
