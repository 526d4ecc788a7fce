import { z } from '../schema.ts';

/** Rows of the tables that have no published source, and of single statements about people. */
export const practiceRows = {
  'human-factors': z.strictObject({
    item: z.string(),
    value: z.number().positive(),
    unit: z.string(),
    also: z.number().positive().optional(),
    also_unit: z.string().optional(),
    source_row: z.string(),
  }),
  'near-sizes': z.strictObject({
    inch: z.string(),
    inch_mm: z.number().positive(),
    metric_mm: z.number().positive(),
    difference_mm: z.number(),
    /** Null where opinions differ. */
    interchangeable_in_common_practice: z.boolean().nullable(),
    inch_opening_min_mm: z.number().positive(),
    inch_opening_max_mm: z.number().positive(),
    inch_socket_goes_on_largest_metric_head: z.boolean(),
  }),
  'common-practice': z.strictObject({
    statement: z.string(),
    value_low_percent: z.number().positive().optional(),
    value_high_percent: z.number().positive().optional(),
    value_text: z.string().optional(),
    note: z.string().optional(),
  }),
  'nominal-sockets': z.strictObject({
    system: z.enum(['metric', 'inch']),
    drive_mm: z.number().positive().optional(),
    sizes_mm: z.array(z.number().positive()).optional(),
    drive_in: z.string().optional(),
    sizes_in: z.array(z.string()).optional(),
  }),
};
