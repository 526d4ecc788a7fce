/** What the catalog has a dialog for. */
export const catalogTools = ['bring-in', 'save', 'columns', 'views', 'doubles', 'stock', 'due'] as const;
export type CatalogTool = (typeof catalogTools)[number];

/** What the finder asks of the catalog, which may not be on the screen yet. */
export type CatalogAsk = 'add' | 'find' | CatalogTool;

let pending: CatalogAsk | null = null;
const listeners = new Set<() => void>();

export function askCatalog(ask: CatalogAsk): void {
  pending = ask;
  for (const listener of listeners) listener();
}

export function takeCatalogAsk(): CatalogAsk | null {
  const taken = pending;
  pending = null;
  return taken;
}

export function onCatalogAsk(listener: () => void): () => void {
  listeners.add(listener);
  return () => listeners.delete(listener);
}
