import type { Item } from '../../../../shared-types/records/item.ts';
import { shownLengths, writtenUnit } from '../../../components/StackDrawing/shownLength.ts';
import type { UnitsShown } from '../../../engine/units/index.ts';
import { quantityText } from '../fieldText.ts';
import { openingWords } from '../words.ts';

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
}

export function itemTexts(item: Item, units: UnitsShown): ItemTexts {
  const length = 'length' in item ? item.length : 'lever' in item ? item.lever : undefined;
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
  };
}
