import { useMemo } from 'react';
import type { BagOuting } from '../../../shared-types/bag.ts';
import type { ResolvedPlan } from '../../engine/plan/resolved.ts';
import type { UnitsShown } from '../../engine/units/index.ts';
import { RowGrid } from '../../components/RowGrid/RowGrid.tsx';
import type { GridColumn, GridRow } from '../../components/RowGrid/RowGrid.tsx';
import { fewNumbersText } from '../steps/words.ts';
import { amountText, bagTotals, once } from './amounts.ts';

const columns: GridColumn[] = [
  { key: 'item', label: 'Item', width: 'minmax(0, 2fr)' },
  { key: 'steps', label: 'Needed at step', width: 'minmax(70px, 0.8fr)', wideOnly: true },
  { key: 'pieces', label: 'Pieces', width: '58px', end: true },
  { key: 'mass', label: 'Mass', width: '92px', end: true },
];

export interface BagTableProps {
  plan: ResolvedPlan;
  outing: BagOuting;
  units: UnitsShown;
  selected: string | null;
  onSelect: (line: string) => void;
  onOpen: () => void;
}

/** A line is an item in a bag: the same item may lie in two. */
export const lineId = (bag: string, item: string): string => JSON.stringify([bag, item]);

export function BagTable({ plan, outing, units, selected, onSelect, onOpen }: BagTableProps) {
  const mode = once(units);
  const rows = useMemo(() => {
    const numbers = new Map(plan.steps.map(({ id }, index) => [id, index + 1]));
    return bagTotals(plan, outing).flatMap(({ bag, items, pieces, contentsKg }): GridRow[] => [
      {
        kind: 'group',
        id: `bag ${bag.id}`,
        cells: [
          { key: 'title', span: 2, content: bag.name === bag.id ? `Bag ${bag.id}` : `${bag.name} · ${bag.id}` },
          { key: 'pieces', span: 1, content: pieces, end: true },
          { key: 'mass', span: 1, content: amountText(contentsKg, 'kg', mode), end: true },
        ],
      },
      ...items.map(({ id, quantity, because }): GridRow => {
        const piece = plan.carried.get(id);
        return {
          kind: 'row',
          id: lineId(bag.id, id),
          cells: () => ({
            item: (
              <>
                {piece?.name ?? id} <span className="bw-code bw-second">{id}</span>
              </>
            ),
            steps: fewNumbersText(because.flatMap((step) => numbers.get(step) ?? [])),
            pieces: quantity,
            mass: amountText((piece?.massKg ?? 0) * quantity, 'kg', mode),
          }),
        };
      }),
    ]);
  }, [plan, outing, mode]);
  return (
    <RowGrid
      label="Contents by bag"
      columns={columns}
      rows={rows}
      selected={selected}
      onSelect={onSelect}
      onOpen={onOpen}
      empty="Nothing needs to be taken on this outing."
    />
  );
}
