import type { Item } from '../../../shared-types/records/item.ts';
import { RefusedError } from '../../engine/errors.ts';
import { convertValue, readQuantity } from '../../engine/units/index.ts';
import type { UnitsShown } from '../../engine/units/index.ts';
import { calibrationText } from './calibrationState.ts';
import { quantityText } from './fieldText.ts';
import { capital, extensionWords, headWords, itemName, kindWords, useWords } from './words.ts';
import type { Segment } from './words.ts';

export interface Shown {
  units: UnitsShown;
  today: string;
  shelfName: (id: string) => string;
}

/** One column of the table: its text, which is copied too, and what it sorts by. */
export interface ItemColumn {
  key: string;
  label: string;
  width: string;
  end?: boolean;
  wideOnly?: boolean;
  text: (item: Item, shown: Shown) => string;
  /** Numbers sort as numbers, in one unit; what has none stands last. */
  sortKey: (item: Item) => number | string;
}

/** In a cell is room for one unit: the other one only where it is asked for alone. */
const once = (units: UnitsShown): UnitsShown => (units === 'both' ? 'as-written' : units);

/** Code and name sort by their letters, and by their numbers as numbers. */
export function sortText(text: string): string {
  return text.toLowerCase().replaceAll(/\d+/g, (digits) => digits.padStart(12, '0'));
}

const numbers = new Map<string, number>();

/** A quantity's size for sorting and filters [N·m, mm, kg, L], whatever its unit; read once for each text. */
export function quantitySize(text: string | undefined): number {
  if (text === undefined) return Infinity;
  const known = numbers.get(text);
  if (known !== undefined) return known;
  const size = readSize(text);
  numbers.set(text, size);
  return size;
}

const anchors = { torque: 'N·m', length: 'mm', mass: 'kg', volume: 'L' } as const;

function readSize(text: string): number {
  try {
    const { value, unit, kind } = readQuantity(text);
    const anchor = Object.entries(anchors).find(([name]) => name === kind)?.[1];
    return anchor === undefined ? value : convertValue(value, unit, anchor);
  } catch (error) {
    if (error instanceof RefusedError) return Number(/\d+/.exec(text)?.[0] ?? Infinity);
    throw error;
  }
}

type Read = (item: Item) => string | undefined;

const quantity = (
  key: string,
  label: string,
  read: Read,
  more: { width?: string; wideOnly?: boolean; limit?: 'minimum' | 'maximum' } = {},
): ItemColumn => ({
  key,
  label,
  width: more.width ?? '72px',
  end: true,
  ...(more.wideOnly === true ? { wideOnly: true } : {}),
  text: (item, { units }) => {
    const text = read(item);
    return text === undefined ? '' : quantityText(text, once(units), more.limit);
  },
  sortKey: (item) => quantitySize(read(item)),
});

const words = (key: string, label: string, width: string, read: Read, wideOnly = false): ItemColumn => ({
  key,
  label,
  width,
  ...(wideOnly ? { wideOnly: true } : {}),
  text: (item) => read(item) ?? '',
  sortKey: (item) => sortText(read(item) ?? '\uffff'),
});

const code = words('code', 'Item', 'minmax(64px, 104px)', (item) => item.code);
const name = words('name', 'Name', 'minmax(0, 1fr)', itemName);
const where = words('keptAt', 'Kept at', 'minmax(56px, 108px)', (item) => item.keptAt, true);
const mass = quantity('mass', 'Mass', (item) => item.mass, { width: '66px' });
const onHand: ItemColumn = {
  key: 'onHand',
  label: 'On hand',
  width: '66px',
  end: true,
  text: (item) => ('onHand' in item && item.onHand !== undefined ? String(item.onHand) : ''),
  sortKey: (item) => ('onHand' in item && item.onHand !== undefined ? item.onHand : Infinity),
};
const rated = quantity(
  'ratedTorque',
  'Rated',
  (item) => ('ratedTorque' in item ? item.ratedTorque : item.kind === 'driver' ? item.max : undefined),
  { width: '84px', limit: 'maximum' },
);
const drive = quantity(
  'drive',
  'Drive',
  (item) => ('drive' in item ? item.drive : 'driveIn' in item ? item.driveIn : undefined),
  { width: '62px' },
);
const length = quantity('length', 'Length', (item) => ('length' in item ? item.length : undefined));
const shelf: ItemColumn = {
  key: 'shelf',
  label: 'Shelf',
  width: 'minmax(0, 120px)',
  wideOnly: true,
  text: (item, { shelfName }) => shelfName(item.shelf),
  sortKey: (item) => item.shelf,
};

/** What a kind is known by, one column of its own. */
function sizeText(item: Item): string | undefined {
  switch (item.kind) {
    case 'fastener':
      return item.thread;
    case 'socket':
      return item.opening.size;
    case 'extension':
      return item.length;
    case 'driver':
      return item.drive;
    case 'torque-tool':
      return item.max;
    case 'bag':
      return item.massMax;
    case 'gear':
      return item.ratedMass;
  }
}

const ofKind: Record<Segment, readonly ItemColumn[]> = {
  all: [
    words('kind', 'Kind', '96px', (item) => kindWords[item.kind], true),
    quantity('sizes', 'Size', sizeText, { width: '96px' }),
    mass,
    onHand,
    where,
  ],
  fastener: [
    words('thread', 'Thread', 'minmax(0, 120px)', (item) => (item.kind === 'fastener' ? item.thread : undefined)),
    words(
      'head',
      'Head',
      '112px',
      (item) => (item.kind === 'fastener' ? capital(headWords[item.head.form]) : undefined),
      true,
    ),
    quantity('acrossFlats', 'Flats', (item) => (item.kind === 'fastener' ? item.head.acrossFlats : undefined)),
    onHand,
    where,
  ],
  socket: [
    drive,
    quantity('opening', 'Opening', (item) => (item.kind === 'socket' ? item.opening.size : undefined), {
      width: '72px',
    }),
    length,
    rated,
    mass,
    onHand,
  ],
  extension: [
    words('form', 'Form', '96px', (item) => (item.kind === 'extension' ? extensionWords[item.form] : undefined)),
    quantity('driveIn', 'In', (item) => (item.kind === 'extension' ? item.driveIn : undefined), { width: '52px' }),
    quantity('driveOut', 'Out', (item) => (item.kind === 'extension' ? item.driveOut : undefined), { width: '52px' }),
    length,
    rated,
    mass,
    onHand,
  ],
  driver: [
    drive,
    rated,
    quantity('lever', 'Lever', (item) => ('lever' in item ? item.lever : undefined)),
    mass,
    onHand,
    where,
  ],
  'torque-tool': [
    drive,
    quantity('min', 'From', (item) => (item.kind === 'torque-tool' ? item.min : undefined), {
      width: '84px',
      limit: 'minimum',
    }),
    quantity('max', 'To', (item) => (item.kind === 'torque-tool' ? item.max : undefined), {
      width: '84px',
      limit: 'maximum',
    }),
    {
      key: 'calibration',
      label: 'Calibration',
      width: '138px',
      text: (item, { today }) => (item.kind === 'torque-tool' ? calibrationText(item, today) : ''),
      sortKey: (item) => (item.kind === 'torque-tool' ? (item.calibrationDue ?? '\uffff') : '\uffff'),
    },
    onHand,
  ],
  gear: [
    words('use', 'Use', '92px', (item) => (item.kind === 'gear' ? capital(useWords[item.use]) : undefined)),
    quantity('ratedMass', 'Holds', (item) => (item.kind === 'gear' ? item.ratedMass : undefined), { limit: 'maximum' }),
    mass,
    onHand,
    where,
  ],
  bag: [
    words('role', 'Role', '84px', (item) => (item.kind === 'bag' ? item.role : undefined)),
    quantity('massMax', 'Takes', (item) => (item.kind === 'bag' ? item.massMax : undefined), { limit: 'maximum' }),
    quantity('volumeMax', 'Volume', (item) => (item.kind === 'bag' ? item.volumeMax : undefined), { limit: 'maximum' }),
    words(
      'pocketNames',
      'Names of pockets',
      '140px',
      (item) => (item.kind === 'bag' ? item.pocketNames : undefined),
      true,
    ),
    words('pockets', 'Pockets', '62px', (item) => (item.kind === 'bag' ? item.pockets?.toString() : undefined), true),
    where,
  ],
};

/** The columns that suit what is shown; the shelf only where several are. */
export function columnsOf(segment: Segment, manyShelves: boolean): ItemColumn[] {
  return [code, name, ...ofKind[segment], ...(manyShelves ? [shelf] : [])];
}
