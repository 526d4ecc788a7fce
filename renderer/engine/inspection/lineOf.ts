import type { CalloutRow } from '../../../shared-types/callout.ts';
import type { CalloutLine, TypedRow } from '../../../shared-types/inspection.ts';
import type { Callout } from '../callout/index.ts';
import { countOpen } from './acceptance.ts';
import { cellNamed } from './cellNamed.ts';

/**
 * A callout as a list shows it.
 *
 * @param typed - its cells as typed
 * @param judged - null where it cannot be read
 */
export function lineOf(
  typed: TypedRow,
  place: number,
  judged: { callout: Callout; row: CalloutRow } | null,
): CalloutLine {
  const common = {
    key: typed.key,
    row: place,
    thread: cellNamed(typed.cells, 'thread'),
    band: bandOfCells(typed.cells),
  };
  if (judged === null) {
    const id = cellNamed(typed.cells, 'id');
    return { ...common, id, state: 'unreadable', minNm: null, tool: null, findings: [], open: 0, accepted: 0 };
  }
  const { callout, row } = judged;
  return {
    ...common,
    id: row.id,
    state: row.decision,
    minNm: callout.band.minNm,
    tool: toolOf(callout, row),
    findings: row.findings.map(({ rule, severity }) => ({ rule, severity })),
    ...countOpen(row.findings, typed.accepted ?? []),
  };
}

/** What is called out, as it was typed. */
export function bandOfCells(cells: TypedRow['cells']): CalloutLine['band'] {
  const [min, max] = [cellNamed(cells, 'torqueMin'), cellNamed(cells, 'torqueMax')];
  if (min !== '' && max !== '') return { min, max };
  const [torque, tolerance] = [cellNamed(cells, 'torque'), cellNamed(cells, 'tolerance')];
  if (torque !== '')
    return { text: tolerance === '' ? torque : `${torque} ± ${tolerance.replace(/^\s*(?:±|\+\/-)\s*/, '')}` };
  return { text: [min, max].filter((end) => end !== '').join(' to ') };
}

/** In the middle of the aim the applied band sticks out least at either end taken together. */
function toolOf({ toolAccuracy }: Callout, { computed: { aimNm } }: CalloutRow): CalloutLine['tool'] {
  if (toolAccuracy === null || aimNm === undefined) return null;
  const set = (aimNm.min + aimNm.max) / 2;
  return { from: set * (1 - toolAccuracy), to: set * (1 + toolAccuracy), aimMin: aimNm.min, aimMax: aimNm.max };
}
