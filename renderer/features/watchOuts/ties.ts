import type { Item, Shelf } from '../../../shared-types/records/item.ts';
import type { Interface, Site } from '../../../shared-types/records/site.ts';
import type { Task, TaskStep } from '../../../shared-types/records/task.ts';
import type { WatchOutTie } from '../../../shared-types/records/watchOut.ts';
import type { Offer } from '../../components/SeekField/offersFor.ts';
import { placeAddress } from '../../store/place.ts';
import { itemName } from '../catalog/words.ts';

/** What a watch-out may be tied to. */
export interface Touchable {
  interfaces: ReadonlyMap<string, Interface>;
  sites: ReadonlyMap<string, Site>;
  items: ReadonlyMap<string, Item>;
  shelves: ReadonlyMap<string, Shelf>;
  steps: ReadonlyMap<string, TaskStep>;
  tasks: ReadonlyMap<string, Task>;
}

const short = (text: string): string => text.slice(0, 400);

export function tieToInterface(at: Interface, sites: ReadonlyMap<string, Site>): WatchOutTie {
  const site = sites.get(at.site)?.code;
  const called = site === undefined ? at.code : `${at.code} of ${site}`;
  return { to: 'interface', interface: at.id, called: short(called) };
}

export function tieToItem(item: Pick<Item, 'shelf' | 'code'>, shelves: ReadonlyMap<string, Shelf>): WatchOutTie {
  const shelf = shelves.get(item.shelf)?.name;
  const called = shelf === undefined ? item.code : `${item.code} on ${shelf}`;
  return { to: 'item', shelf: item.shelf, code: item.code, called: short(called) };
}

export function tieToStep(step: TaskStep, tasks: ReadonlyMap<string, Task>): WatchOutTie {
  const task = tasks.get(step.task)?.code;
  const called = task === undefined ? step.code : `${step.code} of ${task}`;
  return { to: 'step', step: step.id, called: short(called) };
}

export const tieKey = (tie: WatchOutTie): string =>
  tie.to === 'interface'
    ? `interface ${tie.interface}`
    : tie.to === 'step'
      ? `step ${tie.step}`
      : `item ${tie.shelf} ${tie.code}`;

/** The tie under the name its thing has now; `gone` where it is not kept any more, and then under the name it had. */
export function tieNow(
  tie: WatchOutTie,
  known: Touchable,
): { words: string; about: string | null; address: string | null; gone: boolean } {
  const lost = { words: `${tie.to} ${tie.called}`, about: null, address: null, gone: true };
  if (tie.to === 'interface') {
    const at = known.interfaces.get(tie.interface);
    if (at === undefined) return lost;
    const address = placeAddress({ at: 'sites', site: at.site, interface: at.id });
    return {
      words: `interface ${tieToInterface(at, known.sites).called}`,
      about: at.name ?? null,
      address,
      gone: false,
    };
  }
  if (tie.to === 'step') {
    const step = known.steps.get(tie.step);
    if (step === undefined) return lost;
    return {
      words: `step ${tieToStep(step, known.tasks).called}`,
      about: step.name ?? null,
      address: null,
      gone: false,
    };
  }
  const item = itemOf(tie, known.items);
  if (item === undefined) return lost;
  const address = placeAddress({ at: 'catalog', shelf: item.shelf, item: item.id });
  return { words: `item ${tieToItem(item, known.shelves).called}`, about: itemName(item), address, gone: false };
}

function itemOf(tie: { shelf: string; code: string }, items: ReadonlyMap<string, Item>): Item | undefined {
  for (const item of items.values()) if (item.shelf === tie.shelf && item.code === tie.code) return item;
  return undefined;
}

/** Everything that can be touched, as a field can offer it; each offer is found again by its text. */
export function tieOffers(known: Touchable): { offers: Offer[]; tieOf: (text: string) => WatchOutTie | undefined } {
  const ties = new Map<string, WatchOutTie>();
  const offers: Offer[] = [];
  const offer = (tie: WatchOutTie, words: string): void => {
    const code = `${tie.to} ${tie.called}`;
    // Two of one name could not be told apart: the first is offered, the other is written from its own page.
    if (ties.has(code)) return;
    ties.set(code, tie);
    offers.push({ code, words });
  };
  for (const at of known.interfaces.values()) offer(tieToInterface(at, known.sites), at.name ?? '');
  for (const step of known.steps.values()) offer(tieToStep(step, known.tasks), step.name ?? '');
  for (const item of known.items.values()) if (!item.retired) offer(tieToItem(item, known.shelves), itemName(item));
  return { offers, tieOf: (text) => ties.get(text.trim()) };
}
