import type { ItemKind, ItemOf } from '../../../shared-types/records/item.ts';

interface Place {
  /** Key of the new record. */
  id: string;
  /** Key of the shelf it goes on. */
  shelf: string;
}

const carried = { mass: '', onHand: 1 };

/** What each kind begins with: the most usual choice where one must be made, nothing where a figure is asked for. */
const drafts: { [K in ItemKind]: Omit<ItemOf<K>, 'id' | 'rev' | 'shelf' | 'code' | 'retired' | 'parts' | 'kit'> } = {
  fastener: { kind: 'fastener', thread: '', head: { form: 'hex', acrossFlats: '' } },
  socket: {
    ...carried,
    kind: 'socket',
    drive: '3/8 in',
    opening: { form: 'hex6', size: '' },
    length: '',
    outsideDiameter: '',
    ratedTorque: '',
  },
  extension: {
    ...carried,
    kind: 'extension',
    form: 'rigid',
    driveIn: '3/8 in',
    driveOut: '3/8 in',
    length: '',
    outsideDiameter: '',
    ratedTorque: '',
  },
  driver: { ...carried, kind: 'driver', drive: '3/8 in', max: '' },
  'torque-tool': { ...carried, kind: 'torque-tool', drive: '3/8 in', min: '', max: '' },
  gear: { ...carried, kind: 'gear', use: 'other' },
  bag: { kind: 'bag' },
};

/** An empty item to fill in. It does not pass `faultsOf` before its figures are given. */
export function newItem<K extends ItemKind>(kind: K, { id, shelf }: Place): ItemOf<K> {
  const draft = { id, rev: 0, shelf, code: '', retired: false, parts: 1, kit: 'field', ...drafts[kind] };
  return draft as unknown as ItemOf<K>;
}
