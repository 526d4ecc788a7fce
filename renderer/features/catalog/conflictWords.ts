import type { AnyRecord } from '../../../shared-types/records/index.ts';
import { itemKinds } from '../../../shared-types/records/item.ts';
import type { ConflictWords } from '../../components/ConflictPanel/ConflictPanel.tsx';
import { fieldText } from './fieldText.ts';
import { fieldsOf } from './itemFields.ts';
import type { ItemField } from './itemFields.ts';

const more: readonly ItemField[] = [
  { path: 'retired', label: 'Retired', type: { is: 'yes-no' } },
  { path: 'kind', label: 'Kind', type: { is: 'text' } },
  { path: 'bags', label: 'Bags', type: { is: 'text' } },
  { path: 'fastener', label: 'Fastener', type: { is: 'text' } },
  { path: 'strength.proofMPa', label: 'Proof stress (MPa)', type: { is: 'number' } },
  { path: 'strength.yieldMPa', label: 'Yield stress (MPa)', type: { is: 'number' } },
  { path: 'strength.ultimateMPa', label: 'Ultimate stress (MPa)', type: { is: 'number' } },
];

/** The same path is called otherwise in another kind. */
function fieldAt(path: string, record: AnyRecord): ItemField | undefined {
  const kinds = 'kind' in record ? itemKinds.filter((kind) => kind === record.kind) : [];
  return [...kinds.flatMap(fieldsOf), ...more].find((field) => field.path === path);
}

/** The fields of two versions as the form calls them. */
export const conflictWords: ConflictWords = {
  labelOf: (_table, path, record) => fieldAt(path, record)?.label ?? path,
  valueOf: (_table, path, value, record) =>
    value === undefined
      ? 'nothing'
      : Array.isArray(value) && value.some((one) => typeof one === 'object')
        ? JSON.stringify(value)
        : fieldText(fieldAt(path, record) ?? { type: { is: 'text' } }, value, 'as-written'),
};
