import { NativeSelect, TextInput } from '@mantine/core';
import { useMemo, useState } from 'react';
import type { Item } from '../../../../shared-types/records/item.ts';
import { Dialog } from '../../../components/Dialog/Dialog.tsx';
import { RowGrid } from '../../../components/RowGrid/RowGrid.tsx';
import type { GridColumn, GridRow } from '../../../components/RowGrid/RowGrid.tsx';
import { useTable } from '../../session/useStore.ts';
import { CalibrationMark } from '../CalibrationMark.tsx';
import type { CodeHolders } from '../usage.ts';
import { countOf, itemName } from '../words.ts';
import { dueBefore, toolsOfOuting } from './due.ts';

export interface CalibrationDueProps {
  items: readonly Item[];
  holders: CodeHolders;
  today: string;
  onItem: (id: string) => void;
  onClose: () => void;
}

const heads: GridColumn[] = [
  { key: 'item', label: 'Item', width: '104px' },
  { key: 'name', label: 'Name', width: 'minmax(120px, 1fr)' },
  { key: 'serial', label: 'Serial', width: '110px', wideOnly: true },
  { key: 'due', label: 'Due', width: '100px' },
  { key: 'state', label: 'Today', width: '158px' },
  { key: 'place', label: 'Kept at', width: 'minmax(80px, 0.6fr)', wideOnly: true },
];

const isDay = (text: string): boolean =>
  /^\d{4}-\d{2}-\d{2}$/.test(text) && new Date(`${text}T00:00:00Z`).toJSON()?.startsWith(text) === true;

/** Which torque tools fall due before a day, or of those that an outing takes. */
export function CalibrationDue({ items, holders, today, onItem, onClose }: CalibrationDueProps) {
  const [day, setDay] = useState(today);
  const [outing, setOuting] = useState('');
  const [selected, setSelected] = useState<string | null>(null);
  const results = useTable('results').rows;
  const why = isDay(day.trim()) ? undefined : `“${day}” is no day of the calendar: write it as 2027-03-31.`;
  const outings = useMemo(
    () =>
      [...holders.outings.values()].flatMap((one) => {
        const task = holders.tasks.get(one.task);
        return task === undefined ? [] : [{ value: one.id, label: `${task.name}: ${one.name ?? one.code}` }];
      }),
    [holders],
  );
  const ofOuting = useMemo(
    () => (outing === '' ? null : toolsOfOuting(outing, { holders, results })),
    [outing, holders, results],
  );
  const due = useMemo(
    () => (why === undefined ? dueBefore(ofOuting?.tools ?? items, day.trim()) : []),
    [ofOuting, items, day, why],
  );
  const unknown = (ofOuting?.tools ?? items).filter(
    (item) => item.kind === 'torque-tool' && !item.retired && item.calibrationDue === undefined,
  ).length;
  const lines = due.map((item): GridRow => ({
    kind: 'row',
    id: item.id,
    cells: () => ({
      item: <span className="bw-item-code">{item.code}</span>,
      name: itemName(item),
      serial: item.serial ?? '',
      due: item.calibrationDue ?? '',
      state: <CalibrationMark item={item} today={today} />,
      place: item.keptAt ?? '',
    }),
  }));
  return (
    <Dialog title="Calibrations that fall due" onClose={onClose} className="bw-import">
      <div className="bw-deed">
        <div className="bw-form-grid">
          <TextInput
            label="Due on or before the day (year-month-day)"
            description="The day on which the tools must still be in date"
            value={day}
            error={why}
            onChange={({ currentTarget }) => setDay(currentTarget.value)}
          />
          {outings.length === 0 ? null : (
            <NativeSelect
              label="Of the tools for"
              description="An outing has no day of its own: type the day it begins"
              data={[{ value: '', label: 'everything shown in the catalog' }, ...outings]}
              value={outing}
              onChange={({ currentTarget }) => setOuting(currentTarget.value)}
            />
          )}
        </div>
        {ofOuting === null ? null : <p className="bw-second">{ofOuting.said}</p>}
        <p role="status">
          {why !== undefined
            ? ''
            : `${due.length === 0 ? 'No torque tool falls' : due.length === 1 ? '1 torque tool falls' : `${due.length} torque tools fall`} due by ${day.trim()}.`}
          {unknown === 0 ? '' : ` Of ${countOf(unknown, 'torque tool')} no day is said.`}
        </p>
        {lines.length === 0 ? null : (
          <div className="bw-catalog-pasted">
            <RowGrid
              label="Torque tools that fall due"
              columns={heads}
              rows={lines}
              selected={selected}
              onSelect={setSelected}
              onOpen={onItem}
              empty={null}
            />
          </div>
        )}
        <p className="bw-second">Enter on a tool opens it in the catalog. Retired tools are not listed.</p>
      </div>
    </Dialog>
  );
}
