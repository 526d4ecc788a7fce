import type { OddCell } from '../grid.ts';
import { exactCell } from '../exactCell.ts';
import { cellName } from './cellRef.ts';
import { tooLarge, unreadable } from './refusals.ts';
import { attribute } from './scanXml.ts';
import { serialDate } from './serialDate.ts';
import { RichText, unescaped } from './sharedStrings.ts';

/** What a workbook's cells refer to. */
export interface CellTexts {
  strings: readonly string[];
  /** By the number of a style: whether it shows a date. */
  dates: readonly boolean[];
  dateSystem: 1900 | 1904;
}

export interface ReadCell {
  text: string;
  odd: OddCell | null;
}

/** Longer than any number or reference; texts of their own stand elsewhere. */
const valueMost = 40_000;

/** Reads one cell after another, as the tags of it come. */
export class CellReading {
  private readonly part: string;
  private readonly known: CellTexts;
  private readonly rich = new RichText();
  private kind = 'n';
  private style = -1;
  private value = '';
  private formula: string | null = null;
  private into: 'value' | 'formula' | null = null;

  constructor(part: string, known: CellTexts) {
    this.part = part;
    this.known = known;
  }

  begin(attributes: string): void {
    this.kind = attribute(attributes, 't') ?? 'n';
    this.style = Number(attribute(attributes, 's') ?? '-1');
    this.value = '';
    this.formula = null;
    this.into = null;
  }

  open(name: string): void {
    if (name === 'v') this.into = 'value';
    else if (name === 'f') {
      this.into = 'formula';
      this.formula ??= '';
    } else this.rich.open(name);
  }

  close(name: string): void {
    if (name === 'v' || name === 'f') this.into = null;
    else this.rich.close(name);
  }

  add(text: string): void {
    if (this.into === 'value') this.value += text;
    else if (this.into === 'formula') this.formula = (this.formula ?? '') + text;
    else this.rich.add(text);
    if (this.value.length > valueMost || (this.formula ?? '').length > valueMost)
      throw tooLarge(`a cell has more than ${valueMost} characters.`, this.part);
  }

  /** The cell as a text. Of a formula its own words, never what somebody's spreadsheet once made of it. */
  end(row: number, column: number): ReadCell {
    const inline = this.rich.take(this.part);
    if (this.formula !== null) return { text: `=${this.formula.slice(0, 200)}`, odd: { kind: 'formula' } };
    if (this.kind === 'inlineStr') return { text: inline, odd: null };
    if (this.value === '') return { text: '', odd: null };
    const where = (): string => cellName({ column, row });
    if (this.kind === 's') return { text: this.shared(where), odd: null };
    if (this.kind === 'str') return { text: exactCell(unescaped(this.value)), odd: null };
    if (this.kind === 'b') return { text: this.value === '1' ? 'TRUE' : 'FALSE', odd: null };
    if (this.kind === 'e') return { text: this.value, odd: { kind: 'error' } };
    if (this.kind === 'd') return { text: this.value, odd: { kind: 'date' } };
    if (this.kind !== 'n') throw unreadable(`its cell ${where()} is of a kind that is not known.`, this.part);
    return this.number(where);
  }

  private shared(where: () => string): string {
    const text = /^\d{1,9}$/.test(this.value) ? this.known.strings[Number(this.value)] : undefined;
    if (text === undefined)
      throw unreadable(
        `its cell ${where()} names text ${this.value.slice(0, 20)} of ${this.known.strings.length}.`,
        this.part,
      );
    return text;
  }

  private number(where: () => string): ReadCell {
    const number = Number(this.value);
    if (this.value.trim() === '' || !Number.isFinite(number))
      throw unreadable(`its cell ${where()} holds "${this.value.slice(0, 20)}", which is no number.`, this.part);
    if (this.known.dates[this.style] !== true) return { text: String(number), odd: null };
    const date = serialDate(number, this.known.dateSystem);
    return { text: date ?? String(number), odd: { kind: 'date' } };
  }
}
