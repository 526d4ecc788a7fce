import { Button } from '@mantine/core';
import { useRef } from 'react';
import { Dialog } from '../../../components/Dialog/Dialog.tsx';
import type { ItemColumn } from '../columns.ts';
import type { CatalogView, ChosenColumn } from '../view.ts';
import { segments } from '../words.ts';
import { narrowestPx, widestPx } from './columnWidth.ts';
import { endFault, filterForm } from './filters.ts';
import type { ColumnFilter } from './filters.ts';
import { kindsText } from './moreColumns.ts';
import type { ColumnsAtHand } from './useColumns.ts';

export interface ColumnsDialogProps {
  view: CatalogView;
  columns: ColumnsAtHand;
  /** "18 of 214": what the filters leave. */
  count: string;
  onLook: (change: Partial<CatalogView>) => void;
  onClose: () => void;
}

/** Which columns the table has, in which order, how wide, and what each lets through. Everything holds at once. */
export function ColumnsDialog({ view, columns, count, onLook, onClose }: ColumnsDialogProps) {
  const { segment } = view;
  const body = useRef<HTMLTableSectionElement>(null);
  const kind = segments.find(({ value }) => value === segment)?.label ?? '';
  const chosen: readonly ChosenColumn[] =
    view.columns[segment] ?? columns.shown.map(({ key }): ChosenColumn => ({ key }));
  const put = (next: readonly ChosenColumn[] | undefined): void =>
    onLook({ columns: { ...view.columns, [segment]: next } });
  const filter = (key: string, next: ColumnFilter | null): void => {
    const { [key]: _before, ...others } = view.filters;
    onLook({ filters: next === null ? others : { ...others, [key]: next } });
  };
  const move = (at: number, by: 1 | -1): void => {
    const next = [...chosen];
    const [taken] = next.splice(at, 1);
    if (taken === undefined) return;
    next.splice(at + by, 0, taken);
    put(next);
    // The button goes along with its row, and the focus with it.
    const name = by === 1 ? 'later' : 'earlier';
    requestAnimationFrame(() =>
      body.current?.querySelector<HTMLElement>(`tr[data-key="${CSS.escape(taken.key)}"] [data-move=${name}]`)?.focus(),
    );
  };
  return (
    <Dialog title={`Columns and filters: ${kind}`} onClose={onClose} className="bw-catalog-columns">
      <div className="bw-deed">
        <div className="bw-form-foot">
          <span role="status">{count} shown</span>
          <Button onClick={() => onLook({ filters: {} })} disabled={Object.keys(view.filters).length === 0}>
            Clear all filters
          </Button>
          <Button onClick={() => put(undefined)} disabled={view.columns[segment] === undefined}>
            Usual columns
          </Button>
        </div>
        <div className="bw-catalog-scroll">
          <table className="bw-catalog-columnlist">
            <thead>
              <tr>
                <th scope="col">Shown</th>
                <th scope="col">Order</th>
                <th scope="col">Width (px)</th>
                <th scope="col">Only rows with</th>
              </tr>
            </thead>
            <tbody ref={body}>
              {columns.all.map((column) => {
                const at = chosen.findIndex(({ key }) => key === column.key);
                return (
                  <tr key={column.key} data-key={column.key}>
                    <th scope="row">
                      <label className="bw-catalog-check">
                        <input
                          type="checkbox"
                          checked={at >= 0}
                          disabled={at >= 0 && chosen.length === 1}
                          onChange={() =>
                            put(
                              at >= 0
                                ? chosen.filter(({ key }) => key !== column.key)
                                : [...chosen, { key: column.key }],
                            )
                          }
                        />
                        {column.label}
                      </label>
                      {segment === 'all' ? <div className="bw-second bw-small">{kindsText(column.key)}</div> : null}
                    </th>
                    <td>{at < 0 ? null : <Order at={at} of={chosen.length} label={column.label} onMove={move} />}</td>
                    <td>
                      {at < 0 ? null : (
                        <Width
                          label={column.label}
                          value={chosen[at]?.widthPx}
                          onValue={(widthPx) =>
                            put(
                              chosen.map((one, index) =>
                                index === at ? { key: one.key, ...(widthPx === undefined ? {} : { widthPx }) } : one,
                              ),
                            )
                          }
                        />
                      )}
                    </td>
                    <td>
                      <FilterField column={column} value={view.filters[column.key]} onValue={filter} />
                    </td>
                  </tr>
                );
              })}
            </tbody>
          </table>
        </div>
      </div>
    </Dialog>
  );
}

function Order(x: { at: number; of: number; label: string; onMove: (at: number, by: 1 | -1) => void }) {
  const { at, of, label, onMove } = x;
  return (
    <span className="bw-catalog-order">
      <button
        type="button"
        data-move="earlier"
        aria-label={`${label} one place earlier`}
        disabled={at === 0}
        onClick={() => onMove(at, -1)}
      >
        ↑
      </button>
      <button
        type="button"
        data-move="later"
        aria-label={`${label} one place later`}
        disabled={at === of - 1}
        onClick={() => onMove(at, 1)}
      >
        ↓
      </button>
    </span>
  );
}

function Width(x: { label: string; value: number | undefined; onValue: (px: number | undefined) => void }) {
  const { label, value, onValue } = x;
  return (
    <input
      className="bw-catalog-width"
      aria-label={`Width of ${label} in pixels, ${narrowestPx} to ${widestPx}; empty: as it suits`}
      inputMode="numeric"
      placeholder="suits"
      defaultValue={value ?? ''}
      key={value ?? 'none'}
      onBlur={({ currentTarget }) => {
        const px = Number(currentTarget.value);
        const isWidth = currentTarget.value.trim() !== '' && Number.isFinite(px);
        const next = isWidth ? Math.round(Math.min(widestPx, Math.max(narrowestPx, px))) : undefined;
        currentTarget.value = next === undefined ? '' : String(next);
        if (next !== value) onValue(next);
      }}
      onKeyDown={(event) => {
        if (event.key === 'Enter') event.currentTarget.blur();
      }}
    />
  );
}

interface FilterFieldProps {
  column: ItemColumn;
  value: ColumnFilter | undefined;
  onValue: (key: string, filter: ColumnFilter | null) => void;
}

/** What a column lets through: a text it has, a size from and to, or one of its words. */
function FilterField({ column, value, onValue }: FilterFieldProps) {
  const { key, label } = column;
  const form = filterForm(key);
  if (form.is === 'choice') {
    return (
      <select
        aria-label={`${label} is`}
        value={value?.is === 'choice' ? value.value : ''}
        onChange={({ currentTarget }) =>
          onValue(key, currentTarget.value === '' ? null : { is: 'choice', value: currentTarget.value })
        }
      >
        <option value="">any</option>
        {form.values.map((one) => (
          <option key={one} value={one}>
            {one}
          </option>
        ))}
      </select>
    );
  }
  if (form.is === 'text') {
    const contains = value?.is === 'text' ? value.contains : '';
    return (
      <input
        aria-label={`${label} has the text`}
        placeholder="has the text"
        value={contains}
        onChange={({ currentTarget }) =>
          onValue(key, currentTarget.value === '' ? null : { is: 'text', contains: currentTarget.value })
        }
      />
    );
  }
  const ends = value?.is === 'range' ? value : { from: '', to: '' };
  const set = (change: { from?: string; to?: string }): void => {
    const next = { is: 'range' as const, from: ends.from, to: ends.to, ...change };
    onValue(key, next.from === '' && next.to === '' ? null : next);
  };
  return (
    <span className="bw-catalog-ends">
      {(['from', 'to'] as const).map((end) => {
        const why = endFault(form.of, ends[end], form.example);
        const id = `filter-${key}-${end}`;
        return (
          <span key={end}>
            <input
              aria-label={`${label} ${end}`}
              placeholder={`${end}, as ${form.example}`}
              aria-invalid={why === null ? undefined : true}
              aria-describedby={why === null ? undefined : id}
              value={ends[end]}
              onChange={({ currentTarget }) => set({ [end]: currentTarget.value })}
            />
            {why === null ? null : (
              <span id={id} className="bw-catalog-endfault">
                {why}
              </span>
            )}
          </span>
        );
      })}
    </span>
  );
}
