import { createCalloutDesk } from '../../workers/callouts.ts';
import type { CalloutDesk } from '../../workers/callouts.ts';

let kept: CalloutDesk | null = null;
let ofFile: CalloutDesk | null = null;

/** Judges the lists that are kept, one table for each. */
export function keptDesk(): CalloutDesk {
  kept ??= createCalloutDesk();
  return kept;
}

/** Judges a file that is not kept; it may be given up without touching the lists. */
export function fileDesk(): CalloutDesk {
  ofFile ??= createCalloutDesk();
  return ofFile;
}

/** There is one file at a time. */
export const fileTable = 'file';
