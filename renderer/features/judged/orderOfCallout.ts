import { cellNamed } from '../../engine/inspection/index.ts';
import { orderOfText } from '../../engine/pattern/index.ts';
import { placeOfCallout, stepNamed } from './interfaceOf.ts';
import type { KnownPlaces } from './interfaceOf.ts';

/** An order of tightening, and who says it. */
export interface KnownOrder {
  positions: readonly string[];
  /** "interface B, by step b3" */
  from: string;
}

/**
 * The order that the positions of a callout are tightened in by the interface it is for; of a step at some of its positions, those alone.
 * Null where the interface says none, or it cannot be told which positions are meant.
 */
export function orderOfCallout(cells: Readonly<Record<string, string>>, known: KnownPlaces): KnownOrder | null {
  const place = placeOfCallout(cells, known);
  const order = place?.interface.order ?? [];
  if (place === null || order.length === 0) return null;
  const step = stepNamed(cellNamed(cells, 'step'), known) ?? stepNamed(cellNamed(cells, 'id'), known);
  const at = step?.interface === place.interface.id ? step.positions : undefined;
  const meant = at === undefined ? order : some(order, at);
  // As the cell of a table it must come apart into the same names again.
  const isWritable = meant !== null && orderOfText(meant.join(', ')).join('\n') === meant.join('\n');
  return meant === null || !isWritable
    ? null
    : { positions: meant, from: `interface ${place.interface.code}, by ${place.by}` };
}

/** Those of an order that a text names, one by one or as "1–4"; null where it names anything else. */
function some(order: readonly string[], text: string): string[] | null {
  const wanted = new Set<string>();
  for (const word of text.split(/[\s,;]+/).filter((one) => one !== '')) {
    const [, first, last] = /^(\d{1,4})[-–](\d{1,4})$/.exec(word) ?? [];
    if (first === undefined || last === undefined) wanted.add(word);
    else for (let at = Number(first); at <= Number(last); at += 1) wanted.add(String(at));
  }
  const known = new Set(order);
  if (wanted.size === 0 || [...wanted].some((position) => !known.has(position))) return null;
  return order.filter((position) => wanted.has(position));
}
