import type { Interface, Site } from '../../../shared-types/records/site.ts';
import type { Act, Proposal } from '../../store/store.ts';
import { freshCode } from '../task/freshCode.ts';

const called = ({ code, name }: { code: string; name?: string | undefined }): string =>
  name === undefined ? code : `${code} “${name.slice(0, 80)}”`;

const putSite = (site: Site): Proposal => ({ table: 'sites', put: site });
const putInterface = (one: Interface): Proposal => ({ table: 'interfaces', put: one });
const remove = (table: 'sites' | 'interfaces', { id, rev }: { id: string; rev: number }): Proposal => ({
  table,
  remove: { id, rev },
});

export function addSite(site: Site): Act {
  return { action: 'add-site', title: `Add site ${called(site)}`, proposals: [putSite(site)] };
}

export function editSite(before: Site, site: Site): Act {
  return { action: 'edit-site', title: `Edit site ${called(before)}`, proposals: [putSite(site)] };
}

/** A site with all its interfaces once more; the tasks stay with the first. */
export function copySite(
  site: Site,
  { interfaces, codes, newId }: { interfaces: readonly Interface[]; codes: ReadonlySet<string>; newId: () => string },
): { act: Act; copy: Site } {
  const copy: Site = { ...site, id: newId(), rev: 0, code: freshCode(site.code, codes) };
  const own = interfaces.map((one) => putInterface({ ...one, id: newId(), rev: 0, site: copy.id }));
  return { act: { action: 'copy-site', title: `Copy site ${called(site)}`, proposals: [putSite(copy), ...own] }, copy };
}

export function removeSite(site: Site, interfaces: readonly Interface[]): Act {
  return {
    action: 'remove-site',
    title: `Remove site ${called(site)}`,
    proposals: [remove('sites', site), ...interfaces.map((one) => remove('interfaces', one))],
  };
}

export function addInterface(one: Interface): Act {
  return { action: 'add-interface', title: `Add interface ${called(one)}`, proposals: [putInterface(one)] };
}

export function editInterface(before: Interface, one: Interface): Act {
  return { action: 'edit-interface', title: `Edit interface ${called(before)}`, proposals: [putInterface(one)] };
}

export function copyInterface(
  one: Interface,
  { id, codes }: { id: string; codes: ReadonlySet<string> },
): { act: Act; copy: Interface } {
  const copy: Interface = { ...one, id, rev: 0, code: nextLetter(one.code, codes) };
  return {
    act: { action: 'copy-interface', title: `Copy interface ${called(one)}`, proposals: [putInterface(copy)] },
    copy,
  };
}

export function removeInterface(one: Interface): Act {
  return {
    action: 'remove-interface',
    title: `Remove interface ${called(one)}`,
    proposals: [remove('interfaces', one)],
  };
}

/** Interfaces are lettered: after "B" comes the next letter that is free; anything else is numbered on. */
export function nextLetter(like: string, taken: ReadonlySet<string>): string {
  if (!/^[A-Z]$/.test(like)) return freshCode(like, taken);
  for (let at = like.charCodeAt(0); at <= 90; at += 1) {
    const letter = String.fromCharCode(at);
    if (!taken.has(letter)) return letter;
  }
  return freshCode(like, taken);
}
