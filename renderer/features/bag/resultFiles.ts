import type { BagResult } from '../../../shared-types/bag.ts';
import type { FileToSave } from '../../../shared-types/host.ts';
import { bagCsv } from '../../engine/bag/bagCsv.ts';
import { bagDocument } from '../../engine/bag/figuresBasis.ts';
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
  const text = `${JSON.stringify(bagDocument(plan, result), null, 2)}\n`;
  return {
    name: `${baseName(plan, names.fileName, names.day)}.json`,
    mediaType: 'application/json',
    bytes: bytes(text),
  };
}

/** One line for each item and bag, as the headless command prints it. */
export function resultCsv(plan: ResolvedPlan, result: BagResult, names: { fileName: string; day: string }): FileToSave {
  const name = `${baseName(plan, names.fileName, names.day)}.csv`;
  return { name, mediaType: 'text/csv', bytes: bytes(bagCsv(plan, result)) };
}
