/**
 * What the burst page writes, act by act, in an order that the page and the test both know: so a test can say what is
 * kept after the first m acts without having been there.
 */
import type { Item } from '../../../../shared-types/records/item.ts';
import type { Act } from '../../../../renderer/store/store.ts';

const shelfId = 'shelf-of-the-burst';
/** How many records the acts of several put. */
const several = 7;
const cycle = 6;

export type Deed = { kind: 'act'; act: Act } | { kind: 'undo' };

/** The act with number `n` (0, 1, 2 …): of one record, of several, an edit, and undos of what went before. */
export function deedOf(n: number): Deed {
  const round = Math.floor(n / cycle);
  const one = part(`one-${round}`, 'as it came');
  switch (n % cycle) {
    case 0:
      return act(`Add ${one.code}`, [one]);
    case 1:
      return act(`Add the kept block ${round}`, block(`kept-${round}`));
    case 2:
      return act(`Edit ${one.code}`, [{ ...part(one.code, 'as it was edited'), rev: 1 }]);
    case 4:
      return act(`Add the passing block ${round}`, block(`passing-${round}`));
    default:
      return { kind: 'undo' };
  }
}

export const setUp: Act = {
  action: 'add',
  title: 'Add the shelf',
  undoable: false,
  proposals: [{ table: 'shelves', put: { id: shelfId, rev: 0, name: 'Burst of writes' } }],
};

/** The items after the first `m` acts, without their revisions: key and name. */
export function itemsAfter(m: number): Map<string, string> {
  const items = new Map<string, string>();
  const put = (item: Item): void => void items.set(item.id, item.name ?? '');
  for (let n = 0; n < m; n += 1) {
    const deed = deedOf(n);
    const round = Math.floor(n / cycle);
    if (deed.kind === 'undo') {
      if (n % cycle === 3) put(part(`one-${round}`, 'as it came'));
      else for (const { id } of block(`passing-${round}`)) items.delete(id);
      continue;
    }
    for (const proposal of deed.act.proposals) if ('put' in proposal) put(proposal.put as Item);
  }
  return items;
}

/** Acts that put `count` items on the shelf, in entries of at most 500. Each is as long in words as it is told. */
export function fillOf(count: number, words = 20): Act[] {
  const acts: Act[] = [];
  for (let first = 0; first < count; first += 500) {
    const length = Math.min(500, count - first);
    const items = Array.from({ length }, (_, at) => filled(first + at, words));
    acts.push({ action: 'import', title: `Add ${length} items`, proposals: items.map(putItem) });
  }
  return acts;
}

/** Another text each time, so that the browser cannot make it small. */
function filled(n: number, words: number): Item {
  const notes = Array.from({ length: words }, (_, at) => ((n + 1) * (at + 7) * 2_654_435_761).toString(36));
  return { ...part(`fill-${n}`, `filled ${n}`), notes: notes.join(' ').slice(0, 2000) };
}

function act(title: string, items: Item[]): Deed {
  return { kind: 'act', act: { action: 'edit', title, proposals: items.map(putItem) } };
}

const putItem = (put: Item) => ({ table: 'items' as const, put });

function block(name: string): Item[] {
  return Array.from({ length: several }, (_, at) => part(`${name}-${at}`, `block ${name}`));
}

function part(code: string, name: string): Item {
  return {
    id: code,
    rev: 0,
    shelf: shelfId,
    code,
    kind: 'socket',
    name,
    retired: false,
    parts: 1,
    kit: 'field',
    mass: '62 g',
    onHand: 2,
    drive: '3/8 in',
    opening: { form: 'hex6', size: '13 mm' },
    length: '32 mm',
    outsideDiameter: '18 mm',
    ratedTorque: '120 N·m',
  };
}
