import type { Interface, Site } from '../../../shared-types/records/site.ts';
import type { GridColumn, GridRow } from '../../components/RowGrid/RowGrid.tsx';
import { byCode, kindWords, nameOf } from './siteWords.ts';

export const siteColumns: GridColumn[] = [
  { key: 'name', label: 'Site and interface', width: 'minmax(0, 1fr)' },
  { key: 'kind', label: 'Kind', width: '88px', wideOnly: true },
  { key: 'count', label: 'Count', width: '58px', end: true },
  { key: 'fastener', label: 'Fastener', width: 'minmax(0, 0.4fr)', wideOnly: true },
];

/** What a row of the hall's list stands for. */
export type Listed = { kind: 'site'; site: Site } | { kind: 'interface'; site: Site; one: Interface };

export const rowId = (listed: Listed): string =>
  listed.kind === 'site' ? `site ${listed.site.id}` : `interface ${listed.one.id}`;

const holds = (texts: readonly (string | undefined)[], words: readonly string[]): boolean => {
  const text = texts.join(' ').toLowerCase();
  return words.every((word) => text.includes(word));
};

/** Sites in order of their codes, each with its interfaces under it; of a search, what holds all its words. */
export function listedSites(
  { sites, interfaces }: { sites: ReadonlyMap<string, Site>; interfaces: ReadonlyMap<string, Interface> },
  search: string,
): Listed[] {
  const words = search.toLowerCase().split(/\s+/).filter(Boolean);
  const bySite = new Map<string, Interface[]>();
  for (const one of interfaces.values()) bySite.set(one.site, [...(bySite.get(one.site) ?? []), one]);
  return byCode(sites.values()).flatMap((site): Listed[] => {
    const of = [site.code, site.name, site.notes];
    const own = byCode(bySite.get(site.id) ?? []);
    const found = own.filter((one) => holds([...of, one.code, one.name, one.fastener, kindWords[one.kind]], words));
    if (found.length === 0 && !holds(of, words)) return [];
    return [{ kind: 'site', site }, ...found.map((one): Listed => ({ kind: 'interface', site, one }))];
  });
}

export function gridRows(listed: readonly Listed[]): GridRow[] {
  return listed.map((row) => ({
    kind: 'row',
    id: rowId(row),
    cells: () =>
      row.kind === 'site'
        ? {
            name: (
              <b className="bw-step-name">
                <bdi>{nameOf(row.site)}</bdi>{' '}
                {row.site.name === undefined ? null : <span className="bw-code">{row.site.code}</span>}
              </b>
            ),
            kind: 'Site',
            count: '',
            fastener: '',
          }
        : {
            name: (
              <span className="bw-step-name" data-depth="1">
                <b>{row.one.code}</b> <bdi>{row.one.name ?? ''}</bdi>
              </span>
            ),
            kind: kindWords[row.one.kind],
            count: row.one.count,
            fastener: row.one.fastener === undefined ? '–' : <span className="bw-code">{row.one.fastener}</span>,
          },
  }));
}
