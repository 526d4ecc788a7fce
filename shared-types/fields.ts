/** The fields that plans and kept records share: texts with their unit, ids, notes. Quantities are kept as typed. */
import { arePockets } from './pockets.ts';
import { z } from './schema.ts';

export const id = z.string().min(1).max(200);
/** A text with its unit. A bare number says nothing of its unit, and is told so with an example of the field's own kind. */
function quantity(exampleOf: (bare: number) => string) {
  return z
    .string({
      error: ({ input }) =>
        typeof input === 'number'
          ? `is a bare number: write it as a text with its unit, as ${exampleOf(input)}`
          : undefined,
    })
    .min(1)
    .max(80);
}
export const length = quantity((bare) => `"${bare} mm"`);
export const mass = quantity((bare) => `"${bare} g"`);
export const volume = quantity((bare) => `"${bare} mL"`);
export const torque = quantity((bare) => `"${bare} N·m"`);
export const force = quantity((bare) => `"${bare} N"`);
export const stress = quantity((bare) => `"${bare} MPa"`);
export const headSize = quantity((bare) => `"${bare} mm", or "T${bare}" where it is hexalobular`);
/** Squares are named by their size, of which few are made: a bare number's own unit cannot be told. */
export const drive = quantity(() => '"3/8 in" or "10 mm"');
export const note = z.string().max(2000);
export const whole = z.number().int();
/** A bag's pockets, from the first to the last, with semicolons between their names. */
export const pocketNames = z
  .string()
  .min(1)
  .max(2000)
  .refine(
    arePockets,
    'pockets have semicolons between their names, each has one of at most 80 letters, and none another’s',
  );
