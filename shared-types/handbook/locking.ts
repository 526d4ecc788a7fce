import { z } from '../schema.ts';

const torque = z.number().positive();
const series = z.enum(['coarse', 'fine']);

const militaryRow = z.strictObject({
  thread: z.string(),
  series,
  max_locking_torque_lbf_in: torque,
  min_breakaway_torque_lbf_in: torque.nullable(),
});

const breakawayRow = z.strictObject({ thread: z.string(), series, min_breakaway_torque_lbf_in: torque });
const reuseRow = z.strictObject({ thread: z.string(), series, min_prevailing_torque_reused_lbf_in: torque });

/** Rows of the tables of running, breakaway and prevailing torque. */
export const lockingRows = {
  'prevailing-mil-dtl-45916-coarse': militaryRow,
  'prevailing-mil-dtl-45916-fine': militaryRow,
  'breakaway-army-coarse': breakawayRow,
  'breakaway-army-fine': breakawayRow,
  'friction-helicopter-army': z.strictObject({ thread: z.string(), min_friction_torque_lbf_in: torque }),
  'reuse-faa-ac-43.13-coarse': reuseRow,
  'reuse-faa-ac-43.13-fine': reuseRow,
  'reuse-generator-set-army': z.strictObject({
    size: z.string(),
    all_metal_min_lbf_in: torque,
    all_metal_min_N_m: torque.nullable(),
    nylon_min_lbf_in: torque,
    nylon_min_N_m: torque.nullable(),
    flag: z.string(),
  }),
  'prevailing-iso-2320-class-04': z.strictObject({
    thread: z.string(),
    nut_class: z.literal('04'),
    clamp_force_F80_N: z.number().positive(),
    clamp_force_F75_N: z.number().positive(),
    clamp_force_F65_N: z.number().positive(),
    first_on_max_N_m: torque,
    first_off_min_N_m: torque,
    fifth_off_min_N_m: torque,
    flag: z.string(),
  }),
  'running-torque-rules': z.strictObject({ rule: z.string(), applies: z.string() }),
};
