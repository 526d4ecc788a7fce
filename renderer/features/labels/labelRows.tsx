import type { GridColumn, GridRow } from '../../components/RowGrid/RowGrid.tsx';
import { labelCount, whyNoLabel } from './labels.ts';
import type { LabelThing } from './labels.ts';

export const labelGridColumns: GridColumn[] = [
  { key: 'code', label: 'Code', width: 'minmax(110px, 0.6fr)' },
  { key: 'name', label: 'Name', width: 'minmax(0, 1fr)' },
  { key: 'tag', label: 'Label number', width: '104px', end: true },
  { key: 'count', label: 'Labels', width: '64px', end: true },
];

/** Those whose code or name holds all words of a search. */
export function shownThings(things: readonly LabelThing[], search: string): LabelThing[] {
  const words = search.toLowerCase().split(/\s+/).filter(Boolean);
  if (words.length === 0) return [...things];
  return things.filter(({ item: { code, name = '' } }) => {
    const text = `${code} ${name}`.toLowerCase();
    return words.every((word) => text.includes(word));
  });
}

export function labelGridRows(shown: readonly LabelThing[]): GridRow[] {
  return shown.map((thing) => ({
    kind: 'row',
    id: thing.item.id,
    cells: () => ({
      code: (
        <bdi className="bw-code" title={thing.item.code}>
          {thing.item.code}
        </bdi>
      ),
      name: <bdi title={thing.item.name ?? ''}>{thing.item.name ?? ''}</bdi>,
      tag: thing.item.tag ?? 'none yet',
      count: whyNoLabel(thing) === null ? labelCount(thing) : 'none on hand',
    }),
  }));
}
