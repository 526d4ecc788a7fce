import type { Interface, Site } from '../../../shared-types/records/site.ts';
import type { Draft } from '../../components/RecordForm/draft.ts';
import { faultsOf } from '../../engine/records/faultsOf.ts';
import type { Fault } from '../../engine/records/faultsOf.ts';

/** What keeps a site from being kept. */
export function siteFaults(draft: Draft, sites: Iterable<Site>): readonly Fault[] {
  const faults = faultsOf('sites', draft);
  for (const { id, code } of sites)
    if (id !== draft['id'] && code === draft['code'])
      faults.push({ path: 'code', message: `"${code}" is another site’s: choose another one.` });
  return faults;
}

/** What keeps an interface from being kept; its code is its own within its site. */
export function interfaceFaults(draft: Draft, interfaces: Iterable<Interface>): readonly Fault[] {
  const faults = faultsOf('interfaces', draft);
  for (const { id, site, code } of interfaces)
    if (id !== draft['id'] && site === draft['site'] && code === draft['code'])
      faults.push({ path: 'code', message: `"${code}" is another interface’s of this site: choose another one.` });
  return faults;
}
