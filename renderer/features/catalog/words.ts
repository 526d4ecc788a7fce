import type { Item, ItemKind } from '../../../shared-types/records/item.ts';
import type { HeadForm, OpeningForm } from '../../../shared-types/plan.ts';

export const kindWords: Record<ItemKind, string> = {
  fastener: 'Fastener',
  socket: 'Socket or bit',
  extension: 'Extension',
  driver: 'Driver',
  'torque-tool': 'Torque tool',
  gear: 'Carry gear',
  bag: 'Bag',
};

export type Segment = 'all' | ItemKind;

export const segments: readonly { value: Segment; label: string }[] = [
  { value: 'all', label: 'All' },
  { value: 'fastener', label: 'Fasteners' },
  { value: 'socket', label: 'Sockets and bits' },
  { value: 'extension', label: 'Extensions' },
  { value: 'driver', label: 'Drivers' },
  { value: 'torque-tool', label: 'Torque tools' },
  { value: 'gear', label: 'Carry gear' },
  { value: 'bag', label: 'Bags' },
];

export const headWords: Record<HeadForm, string> = {
  hex: 'hex head',
  'heavy-hex': 'heavy hex head',
  nut: 'nut',
  'twelve-point': '12-point head',
  'hex-socket': 'hex socket head',
  hexalobular: 'hexalobular head',
  square: 'square head',
};

export const openingWords: Record<OpeningForm, string> = {
  hex6: '6-point',
  hex12: '12-point',
  hexKey: 'hex key',
  hexalobular: 'hexalobular',
  square: 'square',
};

export const extensionWords = {
  rigid: 'rigid',
  universal: 'universal joint',
  adapter: 'adapter',
  'offset-head': 'offset head',
} as const;

export const useWords = {
  tether: 'tether',
  cap: 'cap',
  cover: 'cover',
  restraint: 'restraint',
  consumable: 'consumable',
  other: 'other gear',
} as const;

export const kitWords = { field: 'field kit', training: 'training kit', both: 'field and training kit' } as const;

/** What an item without a name is called beside its code: what it is, in its own sizes. */
export function itemName(item: Item): string {
  if (item.name !== undefined && item.name !== '') return item.name;
  switch (item.kind) {
    case 'fastener':
      return `${item.thread}, ${item.head.acrossFlats} ${headWords[item.head.form]}`;
    case 'socket':
      return `${item.opening.size} ${openingWords[item.opening.form]}, ${item.drive} square`;
    case 'extension':
      return `${capital(extensionWords[item.form])}, ${item.length}`;
    case 'driver':
      return `Driver, ${item.drive} square`;
    case 'torque-tool':
      return `Torque tool, ${item.min} to ${item.max}`;
    case 'gear':
      return capital(useWords[item.use]);
    case 'bag':
      return 'Bag';
  }
}

export function capital(text: string): string {
  return text.charAt(0).toUpperCase() + text.slice(1);
}

export function countOf(count: number, one: string, many = `${one}s`): string {
  return `${count} ${count === 1 ? one : many}`;
}

/** "A, B and C". */
export function listed(words: readonly string[]): string {
  const last = words.at(-1);
  return words.length < 2 ? (last ?? '') : `${words.slice(0, -1).join(', ')} and ${last}`;
}
