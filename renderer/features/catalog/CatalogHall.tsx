import { useEffect } from 'react';
import { useStore, useTable } from '../session/useStore.ts';
import { prepareAlike } from './alike.ts';
import { CatalogSheet } from './CatalogSheet.tsx';
import type { CatalogHallProps } from './CatalogSheet.tsx';
import { prepareRead } from './searchText.ts';
import '../steps/steps.css';
import './catalog.css';

/** The catalog: what lies on the shelves, to be found, read and changed. */
export function CatalogHall({ place, units, today, host }: CatalogHallProps) {
  const store = useStore();
  useEffect(() => store.table('items').whileRead(prepareRead), [store]);
  const shelves = useTable('shelves');
  const items = useTable('items');
  useEffect(() => (items.ready ? prepareAlike(items.rows) : undefined), [items]);
  const tasks = useTable('tasks');
  const outings = useTable('outings');
  const steps = useTable('steps');
  const interfaces = useTable('interfaces');
  const tables = [shelves, items, tasks, outings, steps, interfaces];
  const fault = tables.find((table) => table.fault !== null)?.fault ?? null;
  if (fault !== null) {
    return (
      <div className="bw-catalog-whole" role="alert">
        <h1>The catalog could not be read</h1>
        <p>{fault}</p>
        <p className="bw-second">Nothing of it is shown as long as not all of it can be.</p>
      </div>
    );
  }
  if (!tables.every(({ ready }) => ready)) {
    return (
      <p className="bw-catalog-whole" role="status">
        Reading the catalog…
      </p>
    );
  }
  return (
    <CatalogSheet
      place={place}
      units={units}
      today={today}
      host={host}
      shelves={shelves.rows}
      items={items.rows}
      tasks={tasks.rows}
      outings={outings.rows}
      steps={steps.rows}
      interfaces={interfaces.rows}
    />
  );
}
