import { depthMost } from './limits.ts';
import { unreadable } from './refusals.ts';

/** What is called for each piece of an XML text. Names come without the prefix before the colon. */
export interface XmlListener {
  /** `attributes` as they stand; `attribute` reads one of them. */
  open(name: string, attributes: string): void;
  close(name: string): void;
  text?(text: string): void;
}

/**
 * Goes through an XML text once, front to back. Declarations of types and entities are refused, so nothing in it grows by being read.
 *
 * @param xml - the whole text
 * @param part - what of the workbook it is, for refusals
 * @throws RefusedError unreadable-file
 */
export function scanXml(xml: string, part: string, listener: XmlListener): void {
  const opened: string[] = [];
  let at = 0;
  for (;;) {
    const tag = xml.indexOf('<', at);
    const textEnd = tag === -1 ? xml.length : tag;
    if (textEnd > at && listener.text !== undefined && opened.length > 0)
      listener.text(decoded(xml.slice(at, textEnd), part));
    if (tag === -1) break;
    const sign = xml.charCodeAt(tag + 1);
    if (sign === 0x21 || sign === 0x3f) {
      at = afterAside(xml, tag, part, listener);
      continue;
    }
    const end = tagEnd(xml, tag, part);
    const isClosing = sign === 0x2f;
    const isEmpty = xml.charCodeAt(end - 1) === 0x2f;
    const inside = xml.slice(tag + (isClosing ? 2 : 1), isEmpty && !isClosing ? end - 1 : end);
    const blank = inside.search(/\s/);
    const name = localName(blank === -1 ? inside : inside.slice(0, blank));
    if (isClosing) {
      if (opened.pop() !== name) throw unreadable('its tags do not close each other.', part);
      listener.close(name);
    } else {
      if (opened.length >= depthMost) throw unreadable(`it is nested deeper than ${depthMost}.`, part);
      listener.open(name, blank === -1 ? '' : inside.slice(blank));
      if (isEmpty) listener.close(name);
      else opened.push(name);
    }
    at = end + 1;
  }
  if (opened.length > 0) throw unreadable('it is broken off.', part);
}

/** A remark, an instruction, a text taken literally; nothing else may begin so. */
function afterAside(xml: string, tag: number, part: string, listener: XmlListener): number {
  const [begin, ending] = xml.startsWith('<?', tag)
    ? ['<?', '?>']
    : xml.startsWith('<!--', tag)
      ? ['<!--', '-->']
      : xml.startsWith('<![CDATA[', tag)
        ? ['<![CDATA[', ']]>']
        : ['', ''];
  if (begin === '') throw unreadable('it declares types or entities, which no workbook does.', part);
  const end = xml.indexOf(ending, tag + begin.length);
  if (end === -1) throw unreadable('it is broken off.', part);
  if (begin === '<![CDATA[') listener.text?.(xml.slice(tag + begin.length, end));
  return end + ending.length;
}

/** Where a tag ends: the first ">" outside of its attributes' quotation marks. */
function tagEnd(xml: string, tag: number, part: string): number {
  let mark = 0;
  for (let at = tag; at < xml.length; at += 1) {
    const sign = xml.charCodeAt(at);
    if (mark !== 0) {
      if (sign === mark) mark = 0;
    } else if (sign === 0x22 || sign === 0x27) mark = sign;
    else if (sign === 0x3e) return at;
  }
  throw unreadable('it is broken off.', part);
}

function localName(name: string): string {
  return name.slice(name.indexOf(':') + 1);
}

const patterns = new Map<string, RegExp>();

/** One attribute of a tag, by its name without prefix; null where the tag has none. */
export function attribute(attributes: string, name: string, part = ''): string | null {
  let pattern = patterns.get(name);
  if (pattern === undefined) {
    pattern = new RegExp(`(?:^|[\\s:])${name}\\s*=\\s*(?:"([^"]*)"|'([^']*)')`);
    patterns.set(name, pattern);
  }
  const found = pattern.exec(attributes);
  return found === null ? null : decoded(found[1] ?? found[2] ?? '', part);
}

const named: Record<string, string> = { amp: '&', lt: '<', gt: '>', quot: '"', apos: "'" };

function decoded(text: string, part: string): string {
  if (!text.includes('&')) return text;
  return text.replace(/&([^;&]{0,12});?/g, (whole, name: string) => {
    if (!whole.endsWith(';')) throw unreadable('it holds a broken entity.', part);
    if (Object.hasOwn(named, name)) return named[name] ?? '';
    const digits = /^#(?:x([0-9a-f]{1,6})|(\d{1,7}))$/i.exec(name);
    const point = digits === null ? -1 : digits[1] === undefined ? Number(digits[2]) : Number.parseInt(digits[1], 16);
    if (point < 1 || point > 0x10ffff || (point >= 0xd800 && point <= 0xdfff))
      throw unreadable('it holds an entity that is not known.', part);
    return String.fromCodePoint(point);
  });
}
