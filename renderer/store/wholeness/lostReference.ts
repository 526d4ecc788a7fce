import type { Refusal } from '../../../shared-types/errors.ts';
import type { AnyRecord, TableName } from '../../../shared-types/records/index.ts';
import { nameOf } from '../recordNames.ts';
import { textAt } from './view.ts';

export interface Referrer {
  table: TableName;
  record: AnyRecord;
}

/** Why a record stays as it is: who refers to it, the first few by name. */
export function refusalOf(table: TableName, lost: AnyRecord, removed: boolean, referrers: Referrer[]): Refusal {
  const shown = referrers.slice(0, 5).map(({ table: of, record }) => nameOf(of, record));
  const more = referrers.length > shown.length ? ` and ${referrers.length - shown.length} more` : '';
  const deed = removed ? 'it cannot be removed' : 'its code cannot be changed';
  return {
    code: 'contradiction',
    message: `${nameOf(table, lost)}: ${deed} while ${shown.join(', ')}${more} ${referrers.length === 1 ? 'refers' : 'refer'} to it`,
    field: `${table}.${removed ? 'id' : 'code'}`,
    value: textAt(lost, 'code') ?? lost.id,
  };
}
