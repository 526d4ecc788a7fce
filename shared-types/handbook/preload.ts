import { z } from '../schema.ts';

/** Rows of the tables of preload scatter and of joint factors. */
export const preloadRows = {
  'preload-scatter': z.strictObject({
    condition: z.string(),
    sample_count: z.number().int().positive(),
    mean_preload_kN: z.number().positive(),
    std_dev_kN: z.number().positive(),
  }),
  'preload-uncertainty': z.strictObject({
    method: z.string(),
    uncertainty_percent: z.number().positive(),
    basis: z.string(),
  }),
  'joint-constants-nasa': z.strictObject({ name: z.string(), value: z.number().positive() }),
};
