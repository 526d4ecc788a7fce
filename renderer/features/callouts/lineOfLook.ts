import type { CalloutLine, CalloutLook } from '../../../shared-types/inspection.ts';
import { bandOfCells, countOpen } from '../../engine/inspection/index.ts';

/** What a row's line says, of the row as it is looked at now. */
export function lineOfLook(
  { row, cells }: CalloutLook,
  accepted: readonly { rule: string; message: string }[],
): Pick<CalloutLine, 'state' | 'open' | 'accepted' | 'band'> {
  const band = bandOfCells(cells);
  if (row === null) return { state: 'unreadable', open: 0, accepted: 0, band };
  return { state: row.decision, ...countOpen(row.findings, accepted), band };
}
