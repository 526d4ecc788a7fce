import { NativeSelect } from '@mantine/core';
import type { BenchNote } from '../../../shared-types/records/note.ts';
import { placeAddress } from '../../store/place.ts';
import { goTo } from '../session/usePlace.ts';
import { benchSheets } from './sheets/index.ts';

export interface BenchRailProps {
  current: string;
  note: string | null;
  notes: readonly BenchNote[];
  keptWith: string;
}

/** What can be computed, and what was kept. */
export function BenchRail({ current, note, notes, keptWith }: BenchRailProps) {
  return (
    <nav className="bw-bench-rail" aria-label="Computations">
      <h2>Compute once</h2>
      <NativeSelect
        className="bw-bench-pick"
        aria-label="Computation"
        data={benchSheets.map(({ id, name }) => ({ value: id, label: name }))}
        value={current}
        onChange={({ currentTarget }) => goTo({ at: 'bench', sheet: currentTarget.value })}
      />
      <ul className="bw-bench-list">
        {benchSheets.map(({ id, name }) => (
          <li key={id}>
            <a
              href={placeAddress({ at: 'bench', sheet: id })}
              aria-current={note === null && id === current ? 'page' : undefined}
            >
              {name}
            </a>
          </li>
        ))}
      </ul>
      <h2 className={notes.length === 0 ? 'bw-bench-wide' : undefined}>{keptWith}</h2>
      {notes.length === 0 ? (
        <p className="bw-bench-wide bw-second bw-small">Nothing yet. A result is kept with “Keep with a task”.</p>
      ) : (
        <ul>
          {notes.map((one) => (
            <li key={one.id}>
              <a
                className="bw-small"
                href={placeAddress({ at: 'bench', sheet: one.sheet, note: one.id })}
                aria-current={one.id === note ? 'page' : undefined}
              >
                {one.name}
              </a>
            </li>
          ))}
        </ul>
      )}
    </nav>
  );
}
