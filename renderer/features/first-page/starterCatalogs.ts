import type { Shelf } from '../../../shared-types/records/item.ts';
import { planSchema } from '../../../shared-types/plan.ts';
import { itemsOfCatalog } from '../../engine/records/recordsOfPlan.ts';
import type { Act } from '../../store/store.ts';

/** Generic items that ship with the program, to begin a shelf with. Each item's notes say what of it is assumed. */
export interface StarterCatalog {
  id: string;
  shelfName: string;
  /** As its button names it: "Take inch". */
  short: string;
  text: () => Promise<string>;
}

export const starterCatalogs: readonly StarterCatalog[] = [
  {
    id: 'inch',
    shelfName: 'Starter catalog, inch',
    short: 'inch',
    text: async () => (await import('../../../data/catalog/starter-inch.json?raw')).default,
  },
  {
    id: 'metric',
    shelfName: 'Starter catalog, metric',
    short: 'metric',
    text: async () => (await import('../../../data/catalog/starter-metric.json?raw')).default,
  },
  {
    // A shelf of its own: on both others, a task that draws on both would find each code twice.
    id: 'carry',
    shelfName: 'Starter carry gear and bags',
    short: 'carry gear',
    text: async () => (await import('../../../data/catalog/carry.json?raw')).default,
  },
];

const notesMost = 2000;

/** Puts a starter catalog on a new shelf, with what it says about itself as the shelf's notes. */
export async function takeStarter(
  { shelfName, text }: StarterCatalog,
  newId: () => string,
): Promise<{ act: Act; shelf: Shelf; items: number }> {
  const given = JSON.parse(await text()) as { about?: string[] };
  const { catalog } = planSchema.parse(given);
  const shelf: Shelf = { id: newId(), rev: 0, name: shelfName, notes: notes(given.about ?? []) };
  const { items } = itemsOfCatalog(catalog, { shelf: shelf.id, newId });
  const proposals: Act['proposals'] = [
    { table: 'shelves', put: shelf },
    ...items.map((put) => ({ table: 'items' as const, put })),
  ];
  return { act: { action: 'take-starter', title: `Take ${shelfName}`, proposals }, shelf, items: items.length };
}

/** Whole sentences, as many as notes hold. */
function notes(about: readonly string[]): string {
  let text = '';
  for (const sentence of about) {
    const longer = text === '' ? sentence : `${text}\n${sentence}`;
    if (longer.length > notesMost) break;
    text = longer;
  }
  return text;
}
