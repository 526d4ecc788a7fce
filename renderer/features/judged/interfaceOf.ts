import type { Interface } from '../../../shared-types/records/site.ts';
import type { TaskStep } from '../../../shared-types/records/task.ts';
import { cellNamed } from '../../engine/inspection/index.ts';

/** What a row's words for a place or a step can mean. */
export interface KnownPlaces {
  /** Of the task. */
  steps: readonly TaskStep[];
  interfaces: ReadonlyMap<string, Interface>;
  /** The task's site: its interfaces come before those of others that have the same code. */
  site: string | undefined;
}

type Cells = Readonly<Record<string, string>>;

const folded = (text: string): string => text.trim().toLowerCase();

/** The one interface that a text names, by code or else by name; undefined where none does, or several. */
function interfaceNamed(text: string, { interfaces, site }: KnownPlaces): Interface | undefined {
  if (text.trim() === '') return undefined;
  const all = [...interfaces.values()];
  const own = site === undefined ? [] : all.filter((one) => one.site === site);
  for (const among of [own, all]) {
    const byCode = among.filter(({ code }) => folded(code) === folded(text));
    const found = byCode.length > 0 ? byCode : among.filter(({ name }) => folded(name ?? '') === folded(text));
    if (found.length === 1) return found[0];
  }
  return undefined;
}

/** The one step of the task that a text names, by code or else by name. */
export function stepNamed(text: string, { steps }: Pick<KnownPlaces, 'steps'>): TaskStep | undefined {
  if (text.trim() === '') return undefined;
  const byCode = steps.filter(({ code }) => folded(code) === folded(text));
  const found = byCode.length > 0 ? byCode : steps.filter(({ name }) => folded(name ?? '') === folded(text));
  return found.length === 1 ? found[0] : undefined;
}

/** An interface, and by what it was found, as a sentence can say it. */
export interface FoundPlace {
  interface: Interface;
  by: string;
}

/**
 * The interface that a callout is for: its own column "interface"; that of the step its column "step" or its id names; an interface of
 * its id.
 */
export function placeOfCallout(cells: Cells, known: KnownPlaces): FoundPlace | null {
  const ofStep = (step: TaskStep | undefined): Interface | undefined => known.interfaces.get(step?.interface ?? '');
  const id = cellNamed(cells, 'id');
  return (
    foundBy(interfaceNamed(cellNamed(cells, 'interface'), known), 'the callout’s column “interface”') ??
    foundBy(ofStep(stepNamed(cellNamed(cells, 'step'), known)), 'the callout’s column “step”') ??
    foundBy(ofStep(stepNamed(id, known)), `step ${id}`) ??
    foundBy(interfaceNamed(id, known), 'the callout’s id')
  );
}

/** The interface that a record was made at: as its own columns say, else as its callout does. */
export function placeOfRecord(record: Cells, callout: Cells, known: KnownPlaces): FoundPlace | null {
  const step = stepNamed(cellNamed(record, 'step'), known);
  // A record of a callout that is not in the list still has its id.
  const id = cellNamed(record, 'callout');
  return (
    foundBy(interfaceNamed(cellNamed(record, 'interface'), known), 'the record’s column “interface”') ??
    foundBy(known.interfaces.get(step?.interface ?? ''), 'the record’s column “step”') ??
    placeOfCallout({ ...callout, ...(cellNamed(callout, 'id') === '' ? { id } : {}) }, known)
  );
}

function foundBy(one: Interface | undefined, by: string): FoundPlace | null {
  return one === undefined ? null : { interface: one, by };
}
