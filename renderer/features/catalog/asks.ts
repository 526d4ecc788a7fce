/** What the finder asks of the catalog, which may not be on the screen yet. */
export type CatalogAsk = 'add' | 'find';

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
