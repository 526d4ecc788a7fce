import Papa from 'papaparse';
import type { BagResult } from '../../../shared-types/bag.ts';
import type { FileToSave } from '../../../shared-types/host.ts';
import type { ResolvedPlan } from '../../engine/plan/resolved.ts';

const bytes = (text: string): Uint8Array => new TextEncoder().encode(text);

function baseName(plan: ResolvedPlan, fileName: string, day: string): string {
  return `bag_${plan.source.task?.id ?? fileName.replace(/\.[^.]*$/, '')}_${day}`;
}

/** The answer field for field, as the headless command prints it. */
export function resultJson(
  plan: ResolvedPlan,
  result: BagResult,
  names: { fileName: string; day: string },
): FileToSave {
  const text = `${JSON.stringify(result, null, 2)}\n`;
  return {
    name: `${baseName(plan, names.fileName, names.day)}.json`,
    mediaType: 'application/json',
    bytes: bytes(text),
  };
}

/** One line an item and bag. Texts that a spreadsheet would take for a formula are made harmless. */
export function resultCsv(plan: ResolvedPlan, result: BagResult, names: { fileName: string; day: string }): FileToSave {
  const rows = result.outings.flatMap((outing) =>
    outing.items.map((item) => {
      const piece = plan.carried.get(item.id);
      return {
        outing: outing.id,
        bag: item.bag,
        item: item.id,
        name: piece?.name ?? item.id,
        pieces: item.quantity,
        massEachKg: piece?.massKg ?? null,
        neededAtSteps: item.because.join(' '),
      };
    }),
  );
  const fields = ['outing', 'bag', 'item', 'name', 'pieces', 'massEachKg', 'neededAtSteps'];
  const text = Papa.unparse(
    { fields, data: rows.map((row) => Object.values(row)) },
    { escapeFormulae: true, newline: '\r\n' },
  );
  return {
    name: `${baseName(plan, names.fileName, names.day)}.csv`,
    mediaType: 'text/csv',
    bytes: bytes(`${text}\r\n`),
  };
}
