import { sheetsMost } from './limits.ts';
import { tooLarge, unreadable } from './refusals.ts';
import { attribute, scanXml } from './scanXml.ts';

/** A sheet as the workbook names it. */
export interface SheetName {
  name: string;
  state: 'visible' | 'hidden';
  /** Of its part within the file. */
  path: string;
}

/** What each relation of a part leads to: a path within the file, by id and by kind. Those that lead out of it are left out. */
export function relations(xml: string, folder: string): { id: string; kind: string; path: string }[] {
  const found: { id: string; kind: string; path: string }[] = [];
  scanXml(xml, 'rels', {
    open(name, attributes) {
      if (name !== 'Relationship' || attribute(attributes, 'TargetMode') === 'External') return;
      const kind = (attribute(attributes, 'Type') ?? '').replace(/^.*\//, '');
      const path = pathWithin(attribute(attributes, 'Target') ?? '', folder);
      found.push({ id: attribute(attributes, 'Id') ?? '', kind, path });
    },
    close: () => undefined,
  });
  return found;
}

/** A path of the file's, whether it was given from its root or from the folder beside. */
function pathWithin(target: string, folder: string): string {
  const parts = target.startsWith('/') ? [] : folder.split('/').filter((part) => part !== '');
  for (const part of target.split('/')) {
    if (part === '' || part === '.') continue;
    if (part === '..') parts.pop();
    else parts.push(part);
  }
  return parts.join('/');
}

/**
 * The sheets of a workbook, in its own order, and how it counts days.
 *
 * @param xml - the workbook's own part
 * @param paths - where each relation leads, by id
 * @throws RefusedError unreadable-file: no sheet in it; too-large: too many
 */
export function workbookSheets(
  xml: string,
  paths: ReadonlyMap<string, string>,
): { sheets: SheetName[]; dateSystem: 1900 | 1904 } {
  const sheets: SheetName[] = [];
  let dateSystem: 1900 | 1904 = 1900;
  scanXml(xml, 'workbook', {
    open(name, attributes) {
      if (name === 'workbookPr' && /^(?:1|true)$/.test(attribute(attributes, 'date1904') ?? '')) dateSystem = 1904;
      if (name !== 'sheet') return;
      const named = attribute(attributes, 'name') ?? '';
      const path = paths.get(attribute(attributes, 'id') ?? '');
      // A sheet of a drawing alone has no cells to read.
      if (path === undefined) return;
      const state = attribute(attributes, 'state') ?? 'visible';
      sheets.push({ name: named, state: state === 'visible' ? 'visible' : 'hidden', path });
      if (sheets.length > sheetsMost) throw tooLarge(`it has more than ${sheetsMost} sheets.`);
    },
    close: () => undefined,
  });
  if (sheets.length === 0) throw unreadable('it has no sheet.');
  return { sheets, dateSystem };
}
