import type { CatalogViewRecord } from '../../../../shared-types/records/window.ts';
import { preferencesKey } from '../../../../shared-types/records/window.ts';
import { firstPreferences } from '../../../store/preferences.ts';
import type { Store } from '../../../store/store.ts';
import type { CatalogView } from '../view.ts';

/** How the person looks now, under a name. */
export function viewRecord(name: string, view: CatalogView): CatalogViewRecord {
  const { search, segment, sorting, density, showRetired, filters, columns } = view;
  const widths = Object.entries(columns).flatMap(([kind, list]) =>
    list === undefined
      ? []
      : [[kind, list.map(({ key, widthPx }) => ({ key, ...(widthPx === undefined ? {} : { widthPx }) }))]],
  );
  return { name, search, segment, sorting, density, showRetired, filters, columns: Object.fromEntries(widths) };
}

/** Keeps the named views with the preferences; another wish kept meanwhile is not written over. */
export async function keepViews(
  store: Store,
  change: (views: CatalogViewRecord[]) => CatalogViewRecord[],
): Promise<void> {
  const kept = store.table('preferences').state().rows.get(preferencesKey);
  const held = kept ?? { ...firstPreferences, id: preferencesKey, rev: 0 };
  const put = { ...held, catalogViews: change([...(held.catalogViews ?? [])]) };
  await store.commit({
    action: 'prefer',
    title: 'Views of the catalog',
    undoable: false,
    proposals: [{ table: 'preferences', put }],
  });
}
