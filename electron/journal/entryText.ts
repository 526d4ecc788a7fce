/**
 * What an entry's text says of its records, without reading them: where each begins and ends in it. The text is canonical, so names stand in
 * one order and nothing stands between.
 */
import type { JournalEntry } from '../../shared-types/journal.ts';
import { tableNames, type TableName } from '../../shared-types/records/index.ts';

/** Where an entry stands in the chain, and the version of its records. */
export type EntryFrame = Pick<JournalEntry, 'seq' | 'hash' | 'prevHash' | 'schema'>;

export interface ChangeText {
  table: TableName;
  id: string;
  /** The record as the entry writes it, or null where it goes. */
  after: string | null;
}

export interface EntryText {
  frame: EntryFrame;
  changes: readonly ChangeText[];
}

/** What stands before it, in an entry, is the action and two sums, which cannot look like it. */
const begin = '"payload":{"changes":[';
const tables: ReadonlySet<string> = new Set(tableNames);

/** @returns null where the text is not as an entry is written: then it is read as JSON */
export function entryText(text: string): EntryText | null {
  const from = text.indexOf(begin);
  if (from < 0) return null;
  const changes: ChangeText[] = [];
  let at = from + begin.length;
  for (;;) {
    const read = changeAt(text, at);
    if (read === null) return null;
    changes.push(read.change);
    at = read.end;
    if (text[at] === ']') break;
    if (text[at] !== ',') return null;
    at += 1;
  }
  const frame = frameAround(text, from, at);
  return frame === null ? null : { frame, changes };
}

const hashForm = /"hash":"([0-9a-f]{64})",$/;
const chainForm = /"prevHash":"([0-9a-f]{64})","schema":(\d+),"seq":(\d+),"tzOffset":/g;

/** Inside a text of JSON a quote has a backslash before it: none of them can look like the names of these fields. */
function frameAround(text: string, from: number, to: number): EntryFrame | null {
  const [, hash] = hashForm.exec(text.slice(0, from)) ?? [];
  chainForm.lastIndex = to;
  const [, prevHash, schema, seq] = chainForm.exec(text) ?? [];
  return hash === undefined || prevHash === undefined
    ? null
    : { hash, prevHash, schema: Number(schema), seq: Number(seq) };
}

function changeAt(text: string, at: number): { change: ChangeText; end: number } | null {
  const after = fieldAt(text, at, '{"after":');
  const before = fieldAt(text, after.end, ',"before":');
  const id = fieldAt(text, before.end, ',"id":');
  const table = fieldAt(text, id.end, ',"table":');
  if (text[table.end] !== '}') return null;
  const [name, key] = [textIn(table.value), textIn(id.value)];
  if (name === null || key === null || !isTable(name)) return null;
  const record = after.value === 'null' ? null : after.value;
  return { change: { table: name, id: key, after: record }, end: table.end + 1 };
}

const isTable = (name: string): name is TableName => tables.has(name);

/** The value behind those signs; an empty one, ending behind the text, where they do not stand there or it does not end. */
function fieldAt(text: string, at: number, name: string): { value: string; end: number } {
  const from = at + name.length;
  const end = text.startsWith(name, at) ? valueEnd(text, from) : -1;
  return end < 0 ? { value: '', end: text.length } : { value: text.slice(from, end), end };
}

/** One that is a text without anything written otherwise than it reads. */
function textIn(value: string): string | null {
  return value.length >= 2 && value.startsWith('"') && !value.includes('\\') ? value.slice(1, -1) : null;
}

const [quote, backslash, openBrace, closeBrace, openBracket, closeBracket] = [0x22, 0x5c, 0x7b, 0x7d, 0x5b, 0x5d];

/** Behind the object, the text or the null that begins there; -1 where none does, or it does not end. */
function valueEnd(text: string, from: number): number {
  if (text.startsWith('null', from)) return from + 4;
  let depth = 0;
  for (let at = from; at < text.length; at += 1) {
    const sign = text.charCodeAt(at);
    if (sign === quote) at = closingQuote(text, at);
    else if (sign === openBrace || sign === openBracket) depth += 1;
    else if (sign === closeBrace || sign === closeBracket) depth -= 1;
    else if (depth === 0) return -1;
    if (depth <= 0) return at + 1;
  }
  return -1;
}

/** Where the text that begins there ends; behind everything where it does not. */
function closingQuote(text: string, from: number): number {
  for (let at = from + 1; at < text.length; at += 1) {
    const sign = text.charCodeAt(at);
    if (sign === backslash) at += 1;
    else if (sign === quote) return at;
  }
  return text.length;
}
