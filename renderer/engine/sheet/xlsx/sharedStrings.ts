import { exactCell } from '../exactCell.ts';
import { cellTextMost, stringsMost } from './limits.ts';
import { tooLarge } from './refusals.ts';
import { attribute, scanXml } from './scanXml.ts';

/** Signs no XML can hold stand as "_x000D_". */
export function unescaped(text: string): string {
  if (!text.includes('_x')) return text;
  return text.replace(/_x([0-9A-Fa-f]{4})_/g, (_, digits: string) => String.fromCharCode(Number.parseInt(digits, 16)));
}

/** Gathers the text of one cell or string: runs of it joined, readings beside it left out. */
export class RichText {
  private text = '';
  private isInText = false;
  private isBeside = false;

  open(name: string): void {
    if (name === 't') this.isInText = !this.isBeside;
    else if (name === 'rPh') this.isBeside = true;
  }

  close(name: string): void {
    if (name === 't') this.isInText = false;
    else if (name === 'rPh') this.isBeside = false;
  }

  add(text: string): void {
    if (this.isInText) this.text += text;
  }

  /** What was gathered, as a cell's text that no reader takes for a formula. */
  take(part: string): string {
    const { text } = this;
    this.text = '';
    if (text.length > cellTextMost)
      throw tooLarge(`a text has ${text.length} characters; at most ${cellTextMost} are taken.`, part);
    return exactCell(unescaped(text));
  }
}

/**
 * The texts that a workbook's cells name by number.
 *
 * @param xml - its part for shared strings
 */
export function sharedStrings(xml: string): string[] {
  const part = 'sharedStrings';
  const strings: string[] = [];
  const rich = new RichText();
  scanXml(xml, part, {
    open(name, attributes) {
      if (name === 'sst' && Number(attribute(attributes, 'uniqueCount') ?? '0') > stringsMost)
        throw tooLarge(`it says it has more than ${stringsMost} texts.`, part);
      rich.open(name);
    },
    close(name) {
      rich.close(name);
      if (name !== 'si') return;
      strings.push(rich.take(part));
      if (strings.length > stringsMost) throw tooLarge(`it has more than ${stringsMost} texts.`, part);
    },
    text: (text) => rich.add(text),
  });
  return strings;
}
