import { headForms, openingForms } from '../../../shared-types/plan.ts';
import { itemKinds, type ItemKind } from '../../../shared-types/records/item.ts';
import type { Kind } from '../units/index.ts';

/** How the text of a cell becomes the value of a field. */
export type CellType =
  | { is: 'text' | 'whole' | 'number' | 'yes-no' | 'day' | 'strength' }
  | { is: 'quantity' | 'list'; of: Kind }
  /** A size that is a length or a name, as T27. */
  | { is: 'head-size' }
  | { is: 'choice'; values: readonly string[] };

/** One column of the catalog as a table: the same for every kind that has the field. */
export interface ItemTableColumn {
  name: string;
  /** Where its value stands in the record. */
  path: string;
  kinds: readonly ItemKind[];
  type: CellType;
  meaning: string;
  aliases: readonly string[];
}

const turning = ['driver', 'torque-tool'] as const;
const carried = itemKinds.filter((kind) => kind !== 'bag');
const length: CellType = { is: 'quantity', of: 'length' };
const mass: CellType = { is: 'quantity', of: 'mass' };
const volume: CellType = { is: 'quantity', of: 'volume' };
const torque: CellType = { is: 'quantity', of: 'torque' };
const text: CellType = { is: 'text' };
const whole: CellType = { is: 'whole' };
const number: CellType = { is: 'number' };
const yesNo: CellType = { is: 'yes-no' };
const choice = (...values: readonly string[]): CellType => ({ is: 'choice', values });

function column(
  name: string,
  kinds: readonly ItemKind[],
  type: CellType,
  meaning: string,
  more: { path?: string; aliases?: readonly string[] } = {},
): ItemTableColumn {
  return { name, path: more.path ?? name, kinds, type, meaning, aliases: more.aliases ?? [] };
}

/**
 * Every field of every kind that a person fills in, once for each name. `max` is what a driver is rated for and the
 * top of a torque tool's range, as in the plan file.
 */
export const itemColumns: readonly ItemTableColumn[] = [
  column('code', itemKinds, text, 'what it is called by, unique on its shelf', {
    aliases: ['item', 'item code', 'id', 'number', 'part number', 'part no', 'item no', 'no'],
  }),
  column('kind', itemKinds, choice(...itemKinds), `one of ${itemKinds.join(', ')}`, {
    aliases: ['type', 'item kind', 'item type', 'category'],
  }),
  column('name', itemKinds, text, 'in words', { aliases: ['description', 'designation', 'title'] }),
  column('thread', ['fastener'], text, 'designation, “M10×1.5”', { aliases: ['thread designation'] }),
  column('head', ['fastener'], choice(...headForms), `form of the head: ${headForms.join(', ')}`, {
    path: 'head.form',
    aliases: ['head form', 'head type'],
  }),
  column('acrossFlats', ['fastener'], { is: 'head-size' }, 'width across flats, “17 mm”; hexalobular “T30”', {
    path: 'head.acrossFlats',
    aliases: ['flats', 'width across flats', 'af'],
  }),
  column('acrossFlatsMin', ['fastener'], length, 'its lower limit', { path: 'acrossFlatsLimits.min' }),
  column('acrossFlatsMax', ['fastener'], length, 'its upper limit', { path: 'acrossFlatsLimits.max' }),
  column('strength', ['fastener'], { is: 'strength' }, 'class or grade, or “proof 600, yield 640, ultimate 800 MPa”', {
    aliases: ['grade', 'property class', 'class'],
  }),
  column('drive', ['socket', 'driver', 'torque-tool'], length, 'square, “3/8 in”', { aliases: ['square'] }),
  column('opening', ['socket'], choice(...openingForms), `form of the opening: ${openingForms.join(', ')}`, {
    path: 'opening.form',
    aliases: ['opening form', 'points'],
  }),
  column('openingSize', ['socket'], { is: 'head-size' }, 'nominal size of the opening, “9/16 in”; “T30”', {
    path: 'opening.size',
    aliases: ['size of the opening', 'nominal size', 'wrench size'],
  }),
  column(
    'form',
    ['extension'],
    choice('rigid', 'universal', 'adapter', 'offset-head'),
    'rigid, universal, adapter or offset-head',
  ),
  column('driveIn', ['extension'], length, 'square towards the tool, “3/8 in”'),
  column('driveOut', ['extension'], length, 'square towards the socket, “1/4 in”'),
  column('length', ['fastener', 'socket', 'extension'], length, 'effective length; of a fastener under the head', {
    aliases: ['effective length'],
  }),
  column('outsideDiameter', ['socket', 'extension'], length, 'at its widest', {
    aliases: ['diameter', 'outer diameter', 'od'],
  }),
  column('innerDepth', ['socket'], length, 'room for a stud that stands proud', { aliases: ['depth'] }),
  column('ratedTorque', ['socket', 'extension'], torque, 'rated torque, “150 lbf·ft”', { aliases: ['rated'] }),
  column('angleMaxDeg', ['extension'], number, 'universal joints: how far they bend [deg]'),
  column('offset', ['extension'], length, 'offset heads: from axis to axis'),
  column('min', ['torque-tool'], torque, 'range from, “15 lbf·ft”', { aliases: ['from', 'range min', 'min torque'] }),
  column('max', turning, torque, 'range to; of a driver its rated torque', {
    aliases: ['to', 'range max', 'max torque'],
  }),
  column('increment', ['torque-tool'], torque, 'of its scale'),
  column('settings', ['torque-tool'], { is: 'list', of: 'torque' }, 'instead of an increment: “10 N·m; 20 N·m”'),
  column('accuracyOfReading', ['torque-tool'], number, 'share of the reading, 0.04 is 4 %', { aliases: ['accuracy'] }),
  column('accuracyOfFullScale', ['torque-tool'], number, 'share of full scale, where it is known by that'),
  column('accuracyFrom', ['torque-tool'], choice('certificate', 'assumed'), 'certificate or assumed'),
  column('lever', turning, length, 'from the square to the middle of the hand', {
    aliases: ['lever length', 'handle'],
  }),
  column('stepDeg', turning, number, 'step angle of the ratchet [deg]', { aliases: ['step angle'] }),
  column('loosens', ['torque-tool'], yesNo, 'may loosen: yes or no'),
  column('direction', ['torque-tool'], choice('right', 'left', 'both'), 'right, left or both'),
  column('freeSpeedPerMin', ['torque-tool'], number, 'power tools: free speed [1/min]'),
  column('serial', ['torque-tool'], text, 'serial number', { aliases: ['serial number', 'serial no', 's/n'] }),
  column('calibrationDue', ['torque-tool'], { is: 'day' }, 'day it is due, “2027-03-31”', {
    aliases: ['calibration', 'calibration due', 'due', 'calibration date'],
  }),
  column('use', ['gear'], choice('tether', 'cap', 'cover', 'restraint', 'consumable', 'other'), 'of carry gear', {}),
  column('consumed', ['gear'], yesNo, 'used up: yes or no'),
  column('pouchPlaces', ['gear'], whole, 'loose pieces it holds closed in'),
  column('suppliesFastener', ['gear'], text, 'code of the fastener that one of it turns into', {
    path: 'supplies.fastener',
  }),
  column('suppliesQuantity', ['gear'], whole, 'and how many of them', { path: 'supplies.quantity' }),
  column('ratedMass', ['gear'], mass, 'tethers and restraints: what they may hold'),
  column('role', ['bag'], text, 'carried by the role'),
  column('massMax', ['bag'], mass, 'mass limit of a bag', { aliases: ['mass limit'] }),
  column('volumeMax', ['bag'], volume, 'volume limit of a bag', { aliases: ['volume limit'] }),
  column('sizeMax', ['bag'], length, 'longest piece it takes'),
  column('itemsMax', ['bag'], whole, 'most pieces'),
  column('tetherPoints', ['bag'], whole, 'tether points'),
  column('pockets', ['bag'], whole, 'pockets'),
  column('pocketNames', ['bag'], text, 'names of its pockets in their order, “lid; main; side”', {
    aliases: ['pocket names'],
  }),
  column('locking', ['fastener'], text, 'locking feature', { aliases: ['locking feature'] }),
  column('finish', ['fastener'], text, 'finish'),
  column('lubrication', ['fastener'], text, 'lubrication'),
  column('captive', ['fastener'], yesNo, 'captive: yes or no'),
  column('washers', ['fastener'], text, 'washers'),
  column('looseWashers', ['fastener'], whole, 'washers under one of it that come off with it'),
  column('threadRun', ['fastener'], length, 'thread run to the seat'),
  column('mass', itemKinds, mass, 'of one piece, “0.152 kg”', { aliases: ['weight'] }),
  column('volume', carried, volume, 'of one piece'),
  column('size', carried, length, 'greatest extent: decides into which bag it goes', { aliases: ['greatest extent'] }),
  column('tethers', carried, whole, 'tethers it takes'),
  column('onHand', carried, whole, 'pieces on hand', { aliases: ['quantity', 'qty', 'stock', 'on hand', 'pieces'] }),
  column('parts', itemKinds, whole, 'parts to one piece; empty: 1'),
  column('kit', itemKinds, choice('field', 'training', 'both'), 'field, training or both; empty: field'),
  column('keptAt', itemKinds, text, 'its place in the store', {
    aliases: ['place', 'kept at', 'location', 'bin', 'storage place', 'storage'],
  }),
  column('notes', itemKinds, text, 'notes', { aliases: ['note', 'remarks', 'remark', 'comment'] }),
  column('retired', itemKinds, yesNo, 'taken off the shelf: yes or no; empty: no'),
];

const ofKinds = new Map(itemKinds.map((kind) => [kind, itemColumns.filter(({ kinds }) => kinds.includes(kind))]));

/**
 * The columns that a kind has something for.
 *
 * @returns in the order of the table
 */
export function columnsOfKind(kind: ItemKind): readonly ItemTableColumn[] {
  return ofKinds.get(kind) ?? [];
}

const byPath = new Map(itemColumns.map((one) => [one.path, one]));

/**
 * The column in which a field stands.
 *
 * @param path - of the field, as `opening.size`; a place in a list counts as the list
 * @returns undefined where no column has it
 */
export function columnAtPath(path: string): ItemTableColumn | undefined {
  return byPath.get(path) ?? byPath.get(path.replace(/\[\d+\]$/, ''));
}
