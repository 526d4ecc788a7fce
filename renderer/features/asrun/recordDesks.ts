import { createAsRunDesk } from '../../workers/asRun.ts';
import type { AsRunDesk } from '../../workers/asRun.ts';

let kept: AsRunDesk | null = null;
let ofFile: AsRunDesk | null = null;

/** Judges the lists that are kept, one table for each. */
export function keptRecordDesk(): AsRunDesk {
  kept ??= createAsRunDesk();
  return kept;
}

/** Judges a file that is not kept; it may be given up without touching the lists. */
export function fileRecordDesk(): AsRunDesk {
  ofFile ??= createAsRunDesk();
  return ofFile;
}
