/** The number on a label goes through every way on which an item is made anew, and along no way on which another is. */
import { describe, expect, it } from 'vitest';
import type { Item } from '../../../shared-types/records/item.ts';
import { cellsOfItem, itemOfCells } from '../../../renderer/engine/catalog/index.ts';
import { mergeItems } from '../../../renderer/engine/records/mergeItems.ts';
import { bringInAct } from '../../../renderer/features/catalog/exchange/itemRows.ts';

const socket: Item = {
  ...{ id: 'here', rev: 3, shelf: 'crew', code: 'S-1', retired: false, parts: 1, kit: 'both', tag: 41 },
  ...{ kind: 'socket', drive: '3/8 in', opening: { form: 'hex6', size: '10 mm' }, length: '26 mm' },
  ...{ outsideDiameter: '15 mm', ratedTorque: '60 N·m', mass: '40 g', onHand: 3 },
};

const { tag: _tag, ...untagged } = { ...socket, id: 'file', rev: 0 };

const driver: Item = {
  ...{ id: 'file', rev: 0, shelf: 'crew', code: 'S-1', retired: false, parts: 1, kit: 'field' },
  ...{ kind: 'driver', drive: '3/8 in', max: '100 N·m', mass: '300 g', onHand: 1 },
};

/** What bringing one row in would write beside the socket that is kept. */
async function broughtIn(cells: Record<string, string>) {
  const shelves = new Map([['crew', { id: 'crew', rev: 1, name: 'Crew' }]]);
  const row = { cells: { shelf: 'Crew', ...cells }, row: 2 };
  const kept = [{ item: socket, cells: {} }];
  const act = await bringInAct({ ready: [row] as never, kept, shelves, from: 'stock.csv', newId: () => 'new' });
  return act.proposals;
}

describe('a label number', () => {
  it('stays where a row of a table is worked into its item', async () => {
    const { id, rev, shelf, position, tag } = socket;
    expect(itemOfCells(cellsOfItem(socket), { id, rev, shelf, position, tag }).item).toEqual(socket);
    expect(await broughtIn({ ...cellsOfItem(socket), onHand: '9' })).toMatchObject([{ put: { tag: 41, onHand: 9 } }]);
  });

  it.each([
    ['of the same kind', { ...untagged, mass: '45 g' }],
    ['of another kind', driver],
  ])('stays where a plan file has another item %s under its code', (_name, file) => {
    const { puts } = mergeItems({ here: [socket], file: [file], differing: 'take' });
    expect(puts).toMatchObject([{ id: 'here', tag: 41, kind: file.kind }]);
  });

  it('is none of an item that a row makes new', async () => {
    const [made] = await broughtIn({ ...cellsOfItem(socket), code: 'S-2' });
    expect(made).toMatchObject({ put: { code: 'S-2' } });
    expect(JSON.stringify(made)).not.toContain('tag');
  });
});
