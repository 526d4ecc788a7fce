import { z } from '../../shared-types/schema.ts';

const preferencesSchema = z.object({
  units: z.enum(['as-written', 'si', 'inch-pound', 'both']),
  scheme: z.enum(['follow', 'light', 'dark']),
  person: z.string().max(2000),
  paper: z.enum(['A4', 'Letter']),
  /** Shortcuts of one letter, which speech input may set off by chance. */
  singleKeys: z.boolean(),
});

export type Preferences = z.infer<typeof preferencesSchema>;

export const firstPreferences: Preferences = {
  units: 'both',
  scheme: 'follow',
  person: '',
  paper: 'A4',
  singleKeys: true,
};

/** What was kept, field by field where it still has the right shape; the rest falls back to how the program starts. */
export function readPreferences(kept: unknown): Preferences {
  const held = typeof kept === 'object' && kept !== null ? kept : {};
  const read = Object.entries(held).flatMap(([name, value]) => {
    const one = preferencesSchema.partial().safeParse({ [name]: value });
    return one.success ? Object.entries(one.data) : [];
  });
  return { ...firstPreferences, ...Object.fromEntries(read) };
}
