import type { TableKey, TableOf } from '../../../shared-types/handbook.ts';
import { RefusedError } from '../errors.ts';
import { headTables } from './heads.ts';
import { lockingTables } from './locking.ts';
import { openingTables } from './openings.ts';
import { practiceTables } from './practice.ts';
import { preloadTables } from './preload.ts';
import { strengthTables } from './strength.ts';
import { threadTables } from './threads.ts';
import { toolTables } from './tools.ts';
import { torqueTables } from './torque.ts';

type HeldTables = { readonly [Key in TableKey]: TableOf<Key> };
export type AnyTable = HeldTables[TableKey];

/** Every published table the program holds, by key. */
const heldTables: HeldTables = {
  ...threadTables,
  ...strengthTables,
  ...headTables,
  ...openingTables,
  ...toolTables,
  ...torqueTables,
  ...lockingTables,
  ...preloadTables,
  ...practiceTables,
};

/** The same tables in their order of topics. */
export const allTables: readonly AnyTable[] = Object.values(heldTables);

/**
 * A table by its key, with the rows typed where the key is known beforehand.
 *
 * @throws RefusedError not-held, naming every key held
 */
export function tableByKey<Key extends TableKey>(key: Key): TableOf<Key>;
export function tableByKey(key: string): AnyTable;
export function tableByKey(key: string): AnyTable {
  const table = allTables.find((held) => held.key === key);
  if (table) return table;
  throw new RefusedError({
    code: 'not-held',
    message: `No table "${key}" is held. Held are: ${allTables.map((held) => held.key).join(', ')}.`,
    value: key,
  });
}
