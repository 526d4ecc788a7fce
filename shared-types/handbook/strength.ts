import { z } from '../schema.ts';

const positive = z.number().positive();

const gradeRow = z.strictObject({
  standard: z.string(),
  grade: z.string(),
  size_range_in: z.string(),
  min_proof_strength_ksi: positive,
  min_yield_strength_ksi: positive,
  min_tensile_strength_ksi: positive,
});

/** Rows of the tables of property classes, grades and materials. */
export const strengthRows = {
  'classes-iso-898-1': z.strictObject({
    property_class: z.string(),
    size_range: z.string(),
    min_tensile_strength_MPa: positive,
    min_yield_or_Rp02_MPa: positive,
  }),
  'proof-stress-iso-898-1': z.strictObject({
    property_class: z.string(),
    size_range: z.string(),
    min_proof_stress_MPa: positive,
  }),
  'classes-metric-textbook': z.strictObject({
    property_class: z.string(),
    size_range: z.string(),
    min_proof_strength_MPa: positive,
    min_tensile_strength_MPa: positive,
    min_yield_strength_MPa: positive,
  }),
  'grades-astm': gradeRow,
  'grades-sae-j429': gradeRow,
  'stainless-iso-3506-1': z.strictObject({
    designation: z.string(),
    min_tensile_MPa: positive,
    min_Rp02_MPa: positive,
  }),
  'materials-nasa-tm-106943': z.strictObject({
    material: z.string(),
    Ftu_ksi: positive,
    Fty_ksi: positive.nullable(),
    Fsu_ksi: positive,
    source_note: z.string(),
  }),
  'nut-strength-nasa-tm-106943': z.strictObject({ thread: z.string(), nut_min_axial_strength_lbf: positive }),
};
