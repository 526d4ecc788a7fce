import { z } from '../schema.ts';

const torque = z.number().positive();

const faaRow = z.strictObject({
  thread: z.string(),
  series: z.enum(['coarse', 'fine']),
  tension_nut_torque_min_lbf_in: torque,
  tension_nut_torque_max_lbf_in: torque,
  shear_nut_torque_min_lbf_in: torque,
  shear_nut_torque_max_lbf_in: torque,
  max_allowable_tension_nut_lbf_in: torque,
  max_allowable_shear_nut_lbf_in: torque,
  flag: z.string(),
});

/** Rows of the tables that print torque against size, of nut factors, and of how running torque is added. */
export const torqueRows = {
  'torque-faa-ac-43.13-coarse': faaRow,
  'torque-faa-ac-43.13-fine': faaRow,
  'torque-nasa-a286': z.strictObject({
    thread: z.string(),
    bolt_material: z.string(),
    torque_cad_plated_nut_min_lbf_in: torque,
    torque_cad_plated_nut_max_lbf_in: torque,
    torque_dry_film_nut_min_lbf_in: torque.optional(),
    torque_dry_film_nut_max_lbf_in: torque.optional(),
    torque_greased_min_lbf_in: torque,
    torque_greased_max_lbf_in: torque,
  }),
  'torque-nasa-cres': z.strictObject({
    thread: z.string(),
    bolt_material: z.string(),
    torque_passivated_min_lbf_in: torque,
    torque_passivated_max_lbf_in: torque,
    torque_plated_min_lbf_in: torque,
    torque_plated_max_lbf_in: torque,
    torque_lubricated_min_lbf_in: torque,
    torque_lubricated_max_lbf_in: torque,
  }),
  'torque-nasa-small': z.strictObject({
    thread: z.string(),
    cres_torque_min_ozf_in: torque,
    cres_torque_max_ozf_in: torque,
    a286_torque_min_ozf_in: torque,
    a286_torque_max_ozf_in: torque,
  }),
  'torque-helicopter-nuts-army': z.strictObject({
    nut_dash_number: z.number().int(),
    torque_min_lbf_in: torque,
    torque_max_lbf_in: torque,
    lubricated_share_of_dry: z.number().positive(),
  }),
  'torque-army-general': z.strictObject({
    thread: z.string(),
    torque_dry_grade_2_lbf_ft: torque,
    torque_dry_grade_5_lbf_ft: torque,
    torque_dry_grade_7_lbf_ft: torque.optional(),
    torque_dry_grade_8_lbf_ft: torque,
  }),
  'torque-army-table-f1': z.strictObject({
    size: z.string(),
    torque_grade_5_lbf_ft: torque.optional(),
    torque_grade_8_lbf_ft: torque.optional(),
    /** Millimetre sizes, under columns whose grade is none of theirs. */
    torque_grade_5_column_lbf_ft: torque.optional(),
    torque_grade_8_column_lbf_ft: torque.optional(),
  }),
  'run-down-rule-army': z.strictObject({
    kind: z.enum(['worked_example', 'rule']),
    recommended_min_lbf_in: torque.optional(),
    recommended_max_lbf_in: torque.optional(),
    torque_one_turn_before_seating_lbf_in: torque.optional(),
    published_reading_min_lbf_in: torque.optional(),
    published_reading_max_lbf_in: torque.optional(),
    share_of_recommended_threshold: z.number().positive().optional(),
    rule: z.string(),
    document: z.string().optional(),
  }),
  'drag-torque-rule-faa': z.strictObject({
    kind: z.literal('worked_example'),
    running_torque_lbf_in: torque,
    table_torque_lbf_in: torque,
    setting_lbf_in: torque,
    formula: z.string(),
  }),
  'nut-factors': z.strictObject({
    condition: z.string(),
    K: z.number().positive().optional(),
    K_min: z.number().positive().optional(),
    K_max: z.number().positive().optional(),
    source_row: z.string(),
  }),
};
