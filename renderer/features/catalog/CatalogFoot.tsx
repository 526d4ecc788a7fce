import { Switch } from '../../components/Switch/Switch.tsx';
import type { Density } from './view.ts';

const densities = [
  { value: 'ordinary', label: 'Ordinary' },
  { value: 'close', label: 'Close' },
  { value: 'gloved', label: 'Gloved' },
] as const;

export interface CatalogFootProps {
  shown: number;
  chosen: number;
  /** Which cells are in hand, in words; null where none is. */
  cells: string | null;
  density: Density;
  onDensity: (density: Density) => void;
}

/** How much is shown and in hand, how high rows are, and the keys of the table. */
export function CatalogFoot({ shown, chosen, cells, density, onDensity }: CatalogFootProps) {
  return (
    <footer className="bw-catalog-foot">
      <span>
        {shown} shown{chosen > 0 ? `, ${chosen} chosen` : ''}
      </span>
      <span className="bw-catalog-density">
        Rows
        <Switch label="Height of rows" value={density} choices={densities} onChange={onDensity} />
      </span>
      <span role="status">{cells}</span>
      <span className="bw-catalog-hint">
        {cells === null
          ? 'Enter opens · F2 edits · Space chooses · Right takes cells · Ctrl C copies · Ctrl V pastes'
          : 'Shift and arrows take more cells · Ctrl C copies them · Ctrl V pastes over them · Esc back to rows'}
      </span>
    </footer>
  );
}
