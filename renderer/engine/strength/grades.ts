import type { Citation } from '../../../shared-types/handbook.ts';
import { citationOf } from '../handbook/rows.ts';
import { strengthTables } from '../handbook/strength.ts';
import { convertValue } from '../units/index.ts';
import { inchRange, isoScope, metricRange, type SizeRange } from './sizeRange.ts';
import { spellingsOf } from './spelling.ts';

/** One row of a strength table: a grade, the sizes it is for and its least strengths. */
export interface Grade {
  /** Its family and name: "SAE J429 grade 5". */
  name: string;
  /** The family alone, and the grade alone, as lists of what is held show them. */
  family: string;
  grade: string;
  /** Null for a material, which has no sizes. */
  range: SizeRange | null;
  proofMPa: number | null;
  yieldMPa: number | null;
  ultimateMPa: number;
  sources: Citation[];
  /** How it may be written, squeezed. */
  spellings: ReadonlySet<string>;
}

const {
  'classes-iso-898-1': isoClasses,
  'proof-stress-iso-898-1': isoProof,
  'classes-metric-textbook': textbook,
  'grades-sae-j429': sae,
  'grades-astm': astm,
  'stainless-iso-3506-1': stainless,
  'materials-nasa-tm-106943': materials,
} = strengthTables;

/**
 * ISO 898-1. Tensile and yield strength are of the edition of 1999, which was read; it has no stress under proof load in the table
 * held, so that is of the edition of 2013 and cited apart. Class 3.6 was dropped before 2013 and has none.
 */
const propertyClasses: Grade[] = isoClasses.rows.map((row) => {
  const proof = isoProof.rows.find(
    (candidate) => candidate.property_class === row.property_class && candidate.size_range === row.size_range,
  );
  return {
    ...named('ISO 898-1', 'class', row.property_class, ['', 'ISO 898-1']),
    range: metricRange(row.size_range),
    proofMPa: proof?.min_proof_stress_MPa ?? null,
    yieldMPa: row.min_yield_or_Rp02_MPa,
    ultimateMPa: row.min_tensile_strength_MPa,
    sources: [citationOf(isoClasses), ...(proof === undefined ? [] : [citationOf(isoProof)])],
  };
});

/** The textbook's copy differs from ISO 898-1 in its ranges (8.8 at M16), so it is taken only where it is asked for by its number. */
const textbookClasses: Grade[] = textbook.rows.map((row) => ({
  ...named(textbook.source.number, 'class', row.property_class, [textbook.source.number]),
  range: metricRange(row.size_range),
  proofMPa: row.min_proof_strength_MPa,
  yieldMPa: row.min_yield_strength_MPa,
  ultimateMPa: row.min_tensile_strength_MPa,
  sources: [citationOf(textbook)],
}));

const inchGrades: Grade[] = [
  ...sae.rows.map((row) => ({
    ...named('SAE J429', 'grade', row.grade, ['SAE J429', 'J429', 'SAE']),
    row,
    table: sae,
  })),
  ...astm.rows.map((row) => ({ ...named('ASTM', '', row.grade, ['ASTM', '']), row, table: astm })),
].map(({ row, table, ...name }) => ({
  ...name,
  range: row.grade === 'A354 grade BD' ? a354Range(inchRange(row.size_range_in)) : inchRange(row.size_range_in),
  proofMPa: mpaOfKsi(row.min_proof_strength_ksi),
  yieldMPa: mpaOfKsi(row.min_yield_strength_ksi),
  ultimateMPa: mpaOfKsi(row.min_tensile_strength_ksi),
  sources: [citationOf(table)],
}));

/** The notes of the table say that the standard is weaker above 2-1/2 in than the row read: the row is not used there. */
function a354Range(printed: SizeRange): SizeRange {
  return {
    ...printed,
    maxMm: 2.5 * 25.4,
    text: '1/4 to 2-1/2 in (the row read goes to 4 in, but ASTM A354 itself is weaker above 2-1/2 in)',
  };
}

/**
 * ISO 3506-1. Class 100 is of the edition of 2020; the cold-worked classes 70 and 80 went up to M24 in 2009, so above it the edition
 * of 2020 alone is cited.
 */
const stainlessGrades: Grade[] = stainless.rows.flatMap((row) => {
  const grade = {
    ...named('ISO 3506-1', '', row.designation, ['', 'ISO 3506-1']),
    proofMPa: null,
    yieldMPa: row.min_Rp02_MPa,
    ultimateMPa: row.min_tensile_MPa,
  };
  const both = citationOf(stainless);
  const only2020 = { ...both, edition: '2020' };
  if (row.designation === 'class 100') return [{ ...grade, range: isoScope, sources: [only2020] }];
  if (!/-[78]0$/.test(row.designation)) return [{ ...grade, range: isoScope, sources: [both] }];
  return [
    { ...grade, range: metricRange('d<=24 mm'), sources: [both] },
    { ...grade, range: metricRange('d>24 mm'), sources: [only2020] },
  ];
});

const materialGrades: Grade[] = materials.rows.map((row) => ({
  ...named('NASA TM-106943', '', row.material, ['', 'NASA TM-106943', 'TM-106943']),
  range: null,
  proofMPa: null,
  yieldMPa: row.Fty_ksi === null ? null : mpaOfKsi(row.Fty_ksi),
  ultimateMPa: mpaOfKsi(row.Ftu_ksi),
  sources: [citationOf(materials)],
}));

/** Every grade held, in the order lists show them. */
export const heldGrades: readonly Grade[] = [
  ...propertyClasses,
  ...inchGrades,
  ...stainlessGrades,
  ...textbookClasses,
  ...materialGrades,
];

function named(family: string, word: string, grade: string, prefixes: readonly string[]) {
  return {
    name: [family, word, grade].filter((part) => part !== '').join(' '),
    family: word === 'grade' ? `${family} grade` : family,
    grade,
    spellings: spellingsOf({ prefixes, word, grade }),
  };
}

function mpaOfKsi(ksi: number): number {
  return convertValue(ksi, 'ksi', 'MPa');
}
