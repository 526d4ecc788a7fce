import type { Item } from '../../../../shared-types/records/item.ts';
import { shownLengths, writtenUnit } from '../../../components/StackDrawing/shownLength.ts';
import type { UnitsShown } from '../../../engine/units/index.ts';
import { quantityText } from '../fieldText.ts';
import { countOf, openingWords } from '../words.ts';
import { pocketCount } from './itemShape.ts';

/** Every word of an item's drawing; the table beside it says the same. */
export interface ItemTexts {
  unit: 'mm' | 'in';
  length: string | null;
  diameter: string | null;
  innerDepth: string | null;
  driveIn: string | null;
  /** Of a socket its opening, of an extension its square. */
  out: string | null;
  /** Of a fastener: its width across flats or its drive, and its thread. */
  across: string | null;
  thread: string | null;
  /** Of an offset head: from axis to axis. */
  offset: string | null;
  /** Of gear and bags: what is known of it beside its longest size. */
  also: string[];
}

export function itemTexts(item: Item, units: UnitsShown): ItemTexts {
  const length = lengthOf(item);
  const across = item.kind === 'fastener' && item.head.form !== 'hexalobular' ? item.head.acrossFlats : undefined;
  const shown = shownLengths(writtenUnit([length, across]), units);
  const typed = (text: string | undefined): string | null => (text === undefined ? null : shown.typed(text));
  const square = (text: string | undefined): string | null => (text === undefined ? null : `□ ${text}`);
  const diameter = typed('outsideDiameter' in item ? item.outsideDiameter : undefined);
  return {
    unit: shown.unit,
    length: typed(length),
    diameter: diameter === null ? null : `⌀${diameter}`,
    innerDepth: typed('innerDepth' in item ? item.innerDepth : undefined),
    driveIn: square('drive' in item ? item.drive : 'driveIn' in item ? item.driveIn : undefined),
    out:
      item.kind === 'socket'
        ? `${quantityText(item.opening.size, 'as-written')} ${openingWords[item.opening.form]}`
        : item.kind === 'extension'
          ? square(item.driveOut)
          : null,
    across: across === undefined ? (item.kind === 'fastener' ? item.head.acrossFlats : null) : typed(across),
    thread: item.kind === 'fastener' ? item.thread : null,
    offset: typed(item.kind === 'extension' ? item.offset : undefined),
    also: alsoOf(item, units),
  };
}

/** The length that its drawing is measured by. */
function lengthOf(item: Item): string | undefined {
  if (item.kind === 'gear') return item.size;
  if (item.kind === 'bag') return item.sizeMax;
  return 'length' in item ? item.length : 'lever' in item ? item.lever : undefined;
}

function alsoOf(item: Item, units: UnitsShown): string[] {
  if (item.kind !== 'gear' && item.kind !== 'bag') return [];
  const volume = item.kind === 'gear' ? item.volume : item.volumeMax;
  const pockets = item.kind === 'bag' ? pocketCount(item) : undefined;
  const once = units === 'both' ? 'both' : units;
  return [
    ...(volume === undefined ? [] : [quantityText(volume, once)]),
    ...(pockets === undefined ? [] : [countOf(pockets, 'pocket')]),
  ];
}
