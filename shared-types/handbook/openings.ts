import { z } from '../schema.ts';

const positive = z.number().positive();

/** Rows of the tables of wrench openings, wrench heads and driving squares. */
export const openingRows = {
  'wrench-openings-asme-b18.2.2': z.strictObject({
    nominal: z.string(),
    nominal_in: positive,
    opening_min_in: positive,
    opening_max_in: positive,
    flag: z.string(),
  }),
  'square-drives-asa-b5.38': z.strictObject({
    drive: z.string(),
    drive_in: positive,
    male_max_in: positive,
    male_min_in: positive,
    female_max_in: positive,
    female_min_in: positive,
  }),
  'square-drives-iso-1174-1': z.strictObject({ iso_size_mm: positive, inch_size: z.string(), inch_size_mm: positive }),
  'test-torques-iso-1711-1': z.strictObject({
    width_across_flats_mm: positive,
    series_highest_N_m: positive,
    series_second_N_m: positive,
    series_third_N_m: positive.nullable(),
    series_lowest_N_m: positive.nullable(),
  }),
  'wrench-heads-a-a-1346': z.strictObject({
    openings: z.string(),
    head_outside_diameter_small_end_max_in: positive,
    head_outside_diameter_large_end_max_in: positive,
  }),
};
