import { useSyncExternalStore } from 'react';

/** How far a table is judged, told again whenever it has come further. */
export function useTableState<State>(
  desk: { subscribe: (listener: () => void) => () => void; state: (of: string) => State | null },
  of: string | null,
): State | null {
  return useSyncExternalStore(desk.subscribe, () => (of === null ? null : desk.state(of)));
}
