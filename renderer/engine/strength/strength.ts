import type { Citation } from '../../../shared-types/handbook.ts';
import type { Thread } from '../thread/index.ts';

/** Least strengths of a fastener as specified; null where its source prints none. */
export interface Strength {
  /** "ISO 898-1 class 8.8", "SAE J429 grade 5"; "as given" where the values were typed. */
  name: string;
  /** Stress under proof load [MPa]. */
  proofMPa: number | null;
  /** Lower yield point or 0.2 % proof stress [MPa]. */
  yieldMPa: number | null;
  /** Tensile strength [MPa]. */
  ultimateMPa: number | null;
  /** One for each table a value comes from; none where the values were typed. */
  sources: Citation[];
}

/** What a grade's range is judged by. */
export type SizedThread = Pick<Thread, 'designation' | 'system' | 'majorMm'>;
