/** What the engine's functions name as their source stands in data/SOURCES.md. */
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, it } from 'vitest';
import { root } from '../support/tracked.ts';

const page = readFileSync(join(root, 'data/SOURCES.md'), 'utf8');
const keys = readdirSync(join(root, 'data/handbook')).map((name) => name.replace(/\.json$/, ''));

/** Numbers of documents as people write them: an issuer and a number, with parts and a revision. */
const documentForm =
  /(?:ISO(?:\/IEC)?|DIN|VDI|JCGM|FED-STD-|NAVEDTRA|(?:NIST )?SP|CGPM|(?:ASME|ANSI|ASA)(?:\/ANSI)?|SAE|NASA TM-|NASA-STD-|FAA AC|MIL-(?:DTL|STD|N|B|S)-|TM|TB|A-A-)[ ]?[A-Z]{0,2}\d[\w.&/-]*\w/g;

/** What a source may be that no document prints. */
const noDocument =
  /definition|geometry|arithmetic|addition|torsion of a prismatic bar|Hooke|distortion energy|common practice|contract|project|rule of|rule \d|typed by the user|ratchet|generator|integral|inverse|interval|tables? (?:of|held|common)|tables held|documents of|sources of|as each|T = K·D·F/i;

/** A function of the engine that has the source this one names. */
const otherFunction = /\b[a-z]+[A-Z]\w+\b|\bitself\b/;

interface Named {
  file: string;
  source: string;
}

const named: Named[] = readdirSync(join(root, 'renderer/engine'), { recursive: true, encoding: 'utf8' })
  .filter((file) => file.endsWith('.ts'))
  .flatMap((file) =>
    sourcesIn(readFileSync(join(root, 'renderer/engine', file), 'utf8')).map((source) => ({ file, source })),
  );

function sourcesIn(text: string): string[] {
  return [...text.matchAll(/^ \* @source +([\s\S]*?)(?=\n \* @|\n \*\/)/gm)].map(([, said = '']) =>
    said.replaceAll(/\s*\n \*\s*/g, ' '),
  );
}

const squeezed = (text: string): string => text.replaceAll(/\s+/g, '').toUpperCase();
const listed = squeezed(page);

/** Documents and keys a source names that the page does not list; and a source that names nothing at all. */
function unlisted(source: string): string[] {
  const documents = source.match(documentForm) ?? [];
  const missing = documents.filter((number) => !isListed(withoutEdition(number)));
  const words = source.match(/\b[a-z][a-z0-9]*(?:-[a-z0-9.]+)*-[a-z0-9.]*[a-z0-9*]/g) ?? [];
  const asKeys = words.filter((word) => isKeyShaped(word, source));
  const lost = asKeys.filter((key) => !keys.some((held) => held === key || page.includes(`\`${key}\``)));
  const star = /torque-\*/.test(source);
  const books = /textbook|handbook|machinery/i.test(source);
  const nothing =
    documents.length === 0 &&
    asKeys.length === 0 &&
    !star &&
    !books &&
    !noDocument.test(source) &&
    !otherFunction.test(source);
  return [...missing, ...lost, ...(nothing ? [`nothing known: "${source}"`] : [])];
}

/** "ISO 27" is not listed by "ISO 272". */
function isListed(number: string): boolean {
  return new RegExp(`${squeezed(number).replaceAll(/[.*+?^$()|[\]\\/]/g, String.raw`\$&`)}(?!\\d)`).test(listed);
}

/** "ISO 898-1" of "ISO 898-1:1999", "ANSI B1.1" of "ANSI B1.1-1974". */
function withoutEdition(number: string): string {
  return number.replace(/[:-](?:19|20)\d\d$/, '');
}

/** Table keys end in a document's name or are said to be keys; other words with hyphens are English. */
function isKeyShaped(word: string, source: string): boolean {
  const plain = word.replace(/[.,;]$/, '');
  if (keys.includes(plain)) return true;
  return new RegExp(`${plain.replaceAll('.', '\\.')}(?:,? (?:and|in) [\\w-]+)* in data/SOURCES\\.md`).test(source);
}

it('finds sources to look at, documents and keys among them', () => {
  expect(named.length).toBeGreaterThan(100);
  expect(named.flatMap(({ source }) => source.match(documentForm) ?? []).length).toBeGreaterThan(100);
});

it('every document and table a function names as its source is listed', () => {
  expect(named.flatMap(({ file, source }) => unlisted(source).map((what) => `${file}: ${what}`))).toEqual([]);
});

it('every table held is listed by its key', () => {
  expect(keys.length).toBeGreaterThan(50);
  expect(keys.filter((key) => !page.includes(`| \`${key}\` |`))).toEqual([]);
});

it.each([
  ['ISO 99999, clause 3', ['ISO 99999']],
  ['NASA TM-106943 (1995); MIL-STD-0000B', ['MIL-STD-0000B']],
  ['ASME B18.2.1; no-such-table in data/SOURCES.md', ['no-such-table']],
  ['heavy-hex-asme in data/SOURCES.md', []],
  ['ISO 898-1:1999', []],
  ['ISO 27', ['ISO 27']],
  ['somewhere', ['nothing known: "somewhere"']],
  ['geometry', []],
])('of "%s" it misses %j', (source, missing) => {
  expect(unlisted(source)).toEqual(missing);
});
