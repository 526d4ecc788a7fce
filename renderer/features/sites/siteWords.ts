import type { Interface, Site } from '../../../shared-types/records/site.ts';

export const kindWords: Readonly<Record<Interface['kind'], string>> = {
  fastener: 'Fastener',
  coupling: 'Coupling',
  connector: 'Connector',
  latch: 'Latch',
  cover: 'Cover',
};

/** What works it and how far it turns, in words; nothing where neither is said. */
export function workedBy({ byHand, gear = [], quarterTurns }: Interface): string | undefined {
  const said = [
    ...(byHand === true ? ['by hand'] : []),
    ...gear.map(({ id, quantity }) => `with ${quantity} × ${id}`),
    ...(quarterTurns === undefined ? [] : [quarterTurns === 1 ? 'a quarter turn' : `${quarterTurns} quarter turns`]),
  ];
  return said.length === 0 ? undefined : said.join(', ');
}

/** A site or an interface as a heading calls it. */
export function nameOf({ code, name }: Pick<Site, 'code' | 'name'>): string {
  return name === undefined ? code : name;
}

/** The same order on every machine: numbers in codes by their value. */
export function byCode<R extends { code: string }>(records: Iterable<R>): R[] {
  return [...records].toSorted((a, b) => a.code.localeCompare(b.code, 'en', { numeric: true }));
}
