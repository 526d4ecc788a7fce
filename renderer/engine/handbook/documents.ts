import type { TableSource } from '../../../shared-types/handbook.ts';
import { RefusedError } from '../errors.ts';
import { allTables, type AnyTable } from './tables.ts';

/** A table as far as its naming goes. */
export interface Named {
  source: TableSource;
  aliases: readonly string[];
}

/**
 * Whether two texts name the same document: spaces and case do not count, and a revision letter may be left out on
 * either side. Two different letters are two revisions, and not the same.
 *
 * @example sameDocument('mil-dtl-45916', 'MIL-DTL-45916C') // true
 * @example sameDocument('MIL-DTL-45916B', 'MIL-DTL-45916C') // false
 */
export function sameDocument(asked: string, held: string): boolean {
  const a = squeezed(asked);
  const b = squeezed(held);
  return a !== '' && (a === b || withoutRevision(a) === b || a === withoutRevision(b));
}

/** The tables of a document, by its number or any alias; every one that is held, in the order of `among`. */
export function tablesByDocument<Table extends Named>(name: string, among: readonly Table[]): Table[];
export function tablesByDocument(name: string): AnyTable[];
/**
 * @param name - the document's number as a person writes it
 * @param among - the tables to look through; all that are held, unless a question concerns only some
 * @returns at least one table
 * @throws RefusedError not-held where no table has that number, naming the documents that are held
 */
export function tablesByDocument(name: string, among: readonly Named[] = allTables): Named[] {
  const found = among.filter((table) => namesOf(table).some((held) => sameDocument(name, held)));
  if (found.length > 0) return found;
  throw new RefusedError({
    code: 'not-held',
    message: `No table of "${name}" is held. Held are: ${documentsOf(among).join(', ')}.`,
    value: name,
  });
}

/** The numbers of the documents behind some tables, each once. */
export function documentsOf(tables: readonly Named[]): string[] {
  return [...new Set(tables.map((table) => table.source.number))];
}

function namesOf(table: Named): string[] {
  return [table.source.number, ...table.aliases];
}

/** Dashes copied from a page are often not the keyboard's. */
function squeezed(name: string): string {
  return name
    .replace(/\s+/g, '')
    .replace(/[\u2010-\u2015\u2212]/g, '-')
    .toUpperCase();
}

function withoutRevision(squeezedName: string): string {
  return squeezedName.replace(/(?<=\d)[A-Z]$/, '');
}
