import { z } from '../schema.ts';

const positive = z.number().positive();

/** Rows of the tables of heads and nuts. */
export const headRows = {
  'hex-head-iso-4014': z.strictObject({
    thread: z.string(),
    pitch_mm: positive,
    s_nominal_max_mm: positive,
    s_min_mm: positive,
    e_min_mm: positive,
    head_height_max_mm: positive,
    head_height_min_mm: positive,
    wrenching_height_min_mm: positive,
    product_grade: z.string(),
    flag: z.string(),
  }),
  'hex-nut-iso-4032': z.strictObject({
    thread: z.string(),
    pitch_mm: positive,
    s_nominal_max_mm: positive,
    s_min_mm: positive,
    e_min_mm: positive,
    nut_height_max_mm: positive,
    nut_height_min_mm: positive,
    flag: z.string(),
  }),
  'across-flats-iso-272': z.strictObject({
    thread: z.string(),
    pitch_mm: positive,
    s_nominal_mm: positive,
    preferred: z.boolean(),
  }),
  'across-flats-din-iso': z.strictObject({ thread: z.string(), s_din_mm: positive, s_iso_mm: positive }),
  'socket-head-iso-4762': z.strictObject({
    thread: z.string(),
    hex_key_nominal_mm: positive,
    socket_s_max_mm: positive.nullable(),
    socket_s_min_mm: positive.nullable(),
    socket_e_min_mm: positive,
    key_engagement_t_min_mm: positive,
    head_diameter_max_mm: positive,
    head_height_max_mm: positive,
    flag: z.string(),
  }),
  'hexalobular-iso-10664': z.strictObject({ hexalobular_size: z.string(), A_reference_mm: positive }),
  'hex-cap-screw-asme-b18.2.1': z.strictObject({
    size: z.string(),
    nominal_diameter_in: positive,
    F_basic: z.string(),
    F_basic_in: positive,
    F_max_in: positive,
    F_min_in: positive,
    G_max_in: positive,
    G_min_in: positive,
    flag: z.string(),
  }),
  'heavy-hex-asme': z.strictObject({
    size: z.string(),
    nominal_diameter_in: positive,
    F_basic: z.string(),
    F_basic_in: positive,
  }),
  'structural-metric-textbook': z.strictObject({
    thread: z.string(),
    s_regular_mm: positive,
    s_heavy_or_structural_mm: positive,
  }),
  'socket-head-asme-b18.3': z.strictObject({
    size: z.string(),
    hex_key: z.string(),
    hex_key_in: positive,
    head_diameter_max_in: positive,
    head_height_max_in: positive,
  }),
};
