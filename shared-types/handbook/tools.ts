import { z } from '../schema.ts';

const torqueUnit = z.enum(['lbf*in', 'lbf*ft']);
const atLeastZero = z.number().min(0);

/** Rows of the tables of torque tools: permissible deviation and which share of the range to use. */
export const toolRows = {
  'torque-tools-iso-6789': z.strictObject({
    rule: z.string(),
    value_percent: atLeastZero.optional(),
    value_percent_list: z.array(atLeastZero).optional(),
    value_count: z.number().int().optional(),
    value_degC_min: z.number().optional(),
    value_degC_max: z.number().optional(),
    value_s_min: atLeastZero.optional(),
    value_s_max: atLeastZero.optional(),
    value_text: z.string().optional(),
    basis: z.string(),
  }),
  'torque-tool-choice-army': z.strictObject({
    required_torque_min: atLeastZero,
    required_torque_max: atLeastZero,
    unit: torqueUnit,
    wrench_capacity: atLeastZero,
  }),
  'torque-tool-range-laboratory': z.strictObject({ rule: z.string(), value_percent: atLeastZero }),
  'torque-tool-effective-range-army': z.strictObject({
    unit: torqueUnit,
    stated_range_min: atLeastZero,
    stated_range_max: atLeastZero,
    effective_range_min: atLeastZero,
    effective_range_max: atLeastZero,
  }),
};
