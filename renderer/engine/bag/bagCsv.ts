import Papa from 'papaparse';
import type { BagResult } from '../../../shared-types/bag.ts';
import type { ResolvedPlan } from '../plan/resolved.ts';

const fields = ['outing', 'bag', 'item', 'name', 'pieces', 'massEachKg', 'neededAtSteps'];

/** The bags as CSV (RFC 4180), a line for each item and bag. Texts that a spreadsheet would run are made harmless. */
export function bagCsv(plan: ResolvedPlan, result: BagResult): string {
  const data = result.outings.flatMap((outing) =>
    outing.items.map((item) => {
      const piece = plan.carried.get(item.id);
      const neededAt = item.because.join(' ');
      return [outing.id, item.bag, item.id, piece?.name ?? item.id, item.quantity, piece?.massKg ?? null, neededAt];
    }),
  );
  return `${Papa.unparse({ fields, data }, { escapeFormulae: true, newline: '\r\n' })}\r\n`;
}
