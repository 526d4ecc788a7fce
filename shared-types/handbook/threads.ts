import { z } from '../schema.ts';

const pitchMm = z.number().positive();

/** Rows of the tables of thread series. */
export const threadRows = {
  'pitches-iso-262': z.strictObject({
    thread: z.string(),
    pitch_coarse_mm: pitchMm,
    pitch_fine_1_mm: pitchMm.nullable(),
    pitch_fine_2_mm: pitchMm.nullable(),
  }),
  'unified-series-asme-b1.1': z.strictObject({
    size: z.string(),
    series: z.enum(['UNC', 'UNF']),
    threads_per_inch: z.number().int().positive(),
    major_diameter_in: z.number().positive(),
    obtained_row: z.literal('from memory').optional(),
  }),
};
