import type { ItemColumn } from '../columns.ts';
import { filterText, isEmptyFilter } from './filters.ts';
import type { ColumnFilter } from './filters.ts';

export interface ActiveFiltersProps {
  filters: Readonly<Record<string, ColumnFilter>>;
  columns: readonly ItemColumn[];
  onFilters: (filters: Readonly<Record<string, ColumnFilter>>) => void;
}

/** What the columns leave out, in words, each with the way to take it off: nothing is hidden without a sign of it. */
export function ActiveFilters({ filters, columns, onFilters }: ActiveFiltersProps) {
  const active = Object.entries(filters).flatMap(([key, filter]) => {
    const column = columns.find((one) => one.key === key);
    return column === undefined || isEmptyFilter(filter) ? [] : [{ key, text: filterText(key, column.label, filter) }];
  });
  if (active.length === 0) return null;
  return (
    <div className="bw-catalog-active" role="group" aria-label="Filters">
      <span>Only rows with</span>
      {active.map(({ key, text }) => (
        <button
          key={key}
          type="button"
          aria-label={`Take off: ${text}`}
          onClick={() => {
            const { [key]: _gone, ...others } = filters;
            onFilters(others);
          }}
        >
          {text} <span aria-hidden="true">×</span>
        </button>
      ))}
    </div>
  );
}
