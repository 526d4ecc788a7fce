import type { Refusal, RefusalCode } from '../../../shared-types/errors.ts';
import { RefusedError } from '../errors.ts';
import { convertValue, readQuantity, type Kind, type Unit } from '../units/index.ts';
import { cellText } from './cellText.ts';
import { dateReason } from './dateLike.ts';
import { mayBeThousands, withPoint } from './decimalComma.ts';
import type { SheetRecord } from './splitTable.ts';
import type { CellQuantity, PlainQuantities } from './plainQuantity.ts';
import type { Table } from './readTable.ts';

/** How long a cell may be that is read. */
const longestCell = 2000;
/** How much of a cell a refusal repeats. */
const shownMost = 80;

/** Whether a cell is its own text: not long, begun by a letter or a digit and ended by no blank, of ASCII both, without apostrophes. */
function isItsOwnText(cell: string): boolean {
  const first = cell.charCodeAt(0);
  const last = cell.charCodeAt(cell.length - 1);
  const isLetter = (first | 0x20) >= 0x61 && (first | 0x20) <= 0x7a;
  const isDigit = first >= 0x30 && first <= 0x39;
  return (isLetter || isDigit) && last > 0x20 && last < 0x7f && cell.length < longestCell && !cell.includes("'");
}

/** A text in which no spreadsheet sees a date: of a letter and a digit, or a number and a unit. */
const noDate = /^(?:[A-Za-z]\d|\d+\/\d+-\d{2} |\d+\/\d+-\d{2}$|#)/;
/** A decimal below 1000, which is no number of a day and has no thousands. */
const plainDecimal = /^(?:0|[1-9]\d{0,2})(?:\.\d{1,2}|\.\d{4,15})?$/;

interface Asked {
  kind: Kind;
  unit: Unit;
  /** The least taken; below 0 nothing is, unless `signed` is. */
  least: 'zero' | 'above zero' | 'signed';
}

/** What a row shares with all others of its table. */
interface RowContext {
  readonly table: Table;
  /** Where refusals are gathered. */
  readonly refusals: Refusal[];
  readonly hasDecimalCommas: boolean;
  readonly plain: PlainQuantities;
}

/** Reads the cells of one row. Each reader gives null for a cell that is empty or refused; what is refused is told once. */
export class RowReading {
  readonly row: number;
  private readonly reading: RowContext;
  private readonly cells: string[];
  private readonly refused: string[] = [];

  constructor(reading: RowContext, record: SheetRecord) {
    this.reading = reading;
    this.row = record.row;
    this.cells = record.cells;
  }

  /** Whether anything of this row was refused. */
  get isBad(): boolean {
    return this.refused.length > 0;
  }

  /** Whether nothing at all stands in a cell. */
  isEmpty(name: string): boolean {
    return this.cell(name) === '';
  }

  /** A text as it stands in its cell, without the blanks around it. */
  text(name: string): string | null {
    const cell = this.cell(name);
    if (cell === '') return null;
    if (isItsOwnText(cell)) return cell;
    const { text, isFormula } = cellText(cell);
    const trimmed = text.trim();
    if (trimmed === '') return null;
    if (isFormula) {
      this.refuse(
        name,
        'wrong-shape',
        'begins as a formula does: formulas are not evaluated; write the value itself',
        trimmed,
      );
      return null;
    }
    if (trimmed.length > longestCell) {
      this.refuse(name, 'too-large', `has ${trimmed.length} characters; at most ${longestCell} are read`, trimmed);
      return null;
    }
    return trimmed;
  }

  /** A text that a spreadsheet may have spoilt: no date, and without an apostrophe that made it a text. */
  sized(name: string): string | null {
    const text = this.text(name);
    if (text === null) return null;
    if (noDate.test(text)) return text;
    const plain = text.startsWith("'") ? text.slice(1).trim() : text;
    const reason = dateReason(plain);
    if (reason === null) return plain;
    this.refuse(name, 'wrong-shape', reason, text);
    return null;
  }

  /** A quantity as it is to be kept: as typed, with a decimal point where the file has commas. */
  quantityText(name: string): string | null {
    const text = this.sized(name);
    if (text === null || !text.includes(',')) return text;
    return this.attempt(name, text, () => this.plainNumber(text));
  }

  quantity(name: string, asked: Asked): CellQuantity | null {
    const cell = this.cell(name);
    if (cell === '') return null;
    const plain = this.reading.hasDecimalCommas ? null : this.reading.plain.read(cell, asked);
    // What is written plainly is above 0 or 0, and no date.
    if (plain !== null && (plain.value > 0 || asked.least !== 'above zero')) return plain;
    const text = this.sized(name);
    if (text === null) return null;
    return this.attempt(name, text, () => {
      const found = this.readQuantity(text, asked);
      this.bound(found.value, asked.least);
      return found;
    });
  }

  /** A quantity out of a part of a cell, as a band's ends are. */
  readQuantity(text: string, { kind, unit }: Pick<Asked, 'kind' | 'unit'>): CellQuantity {
    const plain = this.reading.hasDecimalCommas ? null : this.reading.plain.read(text, { kind, unit });
    if (plain !== null) return plain;
    const read = readQuantity(this.plainNumber(text), kind);
    return { value: convertValue(read.value, read.unit, unit), unit: read.unit, number: read.value, text };
  }

  /** A number without a unit, within limits; "4 %" too where it is a share. */
  number(name: string, x: { isShare: boolean; holds: (value: number) => boolean; range: string }): number | null {
    const cell = this.cell(name);
    if (cell === '') return null;
    if (plainDecimal.test(cell) && x.holds(Number(cell))) return Number(cell);
    const text = this.sized(name);
    if (text === null) return null;
    return this.attempt(name, text, () => {
      const plain = this.plainNumber(text).replace(/^(?:±|\+\/-)\s*/, '');
      const [, digits = '', percent = ''] =
        /^\s*([+-]?(?:\d+\.?\d*|\.\d+)(?:e[+-]?\d+)?)\s*(%?)\s*$/i.exec(plain) ?? [];
      if (digits === '' || (percent !== '' && !x.isShare)) {
        throw new RefusedError({
          code: /^\s*[+-]?\d+(?:\.\d+)?,\d/.test(plain) ? 'ambiguous-quantity' : 'unreadable-quantity',
          message: `is no number${x.isShare ? ', as 0.04 or 4 %' : ', as 0.16'}`,
        });
      }
      const value = percent === '' ? Number(digits) : Number(`${digits}e-2`);
      const scaled = Number.isFinite(value) ? value : Number(digits) / 100;
      if (Number.isFinite(scaled) && x.holds(scaled)) return scaled;
      throw new RefusedError({ code: 'out-of-range', message: `must be ${x.range}` });
    });
  }

  /** One of a few words, whatever their case. */
  choice<Word extends string>(name: string, words: readonly Word[]): Word | null {
    const text = this.text(name);
    if (text === null) return null;
    const found = words.find((word) => word === text.toLowerCase());
    if (found === undefined) this.refuse(name, 'wrong-shape', `is none of ${words.join(', ')}`, text);
    return found ?? null;
  }

  /** Whatever reads a cell; what it refuses is kept under the column's name. */
  attempt<T>(name: string, value: string, read: () => T): T | null {
    try {
      return read();
    } catch (error) {
      if (!(error instanceof RefusedError)) throw error;
      const { message, code, position } = error.refusal;
      this.refuse(name, code, message.replace(`${name}: `, ''), value, position);
      return null;
    }
  }

  /** Says that a cell is empty, unless what stands in it was refused. */
  missing(name: string): void {
    this.refuse(name, 'missing-field', 'is empty');
  }

  /** Refuses a cell, once: what is said of it first is what is wrong with it. */
  refuse(name: string, code: RefusalCode, reason: string, value?: string, position?: number): void {
    if (this.refused.includes(name)) return;
    this.refused.push(name);
    const { file } = this.reading.table;
    const shown = value !== undefined && value.length > shownMost ? `${value.slice(0, shownMost)}…` : value;
    const refusal: Refusal = {
      code,
      message: `${name}: ${reason}`,
      ...(file === null ? {} : { file }),
      row: this.row,
      field: name,
      ...(shown === undefined ? {} : { value: shown }),
      ...(position === undefined ? {} : { position }),
    };
    this.reading.refusals.push(refusal);
  }

  /** A cell as it stands in the file; nothing where its column is not there. */
  private cell(name: string): string {
    const at = this.reading.table.columns.get(name);
    return at === undefined ? '' : (this.cells[at] ?? '');
  }

  private plainNumber(text: string): string {
    if (this.reading.hasDecimalCommas && mayBeThousands(text)) {
      throw new RefusedError({
        code: 'ambiguous-quantity',
        message:
          'can be read in two ways: other cells of this file have decimal commas, so its point may part thousands',
      });
    }
    return withPoint(text, this.reading.table.delimiter);
  }

  private bound(value: number, least: Asked['least']): void {
    if (least === 'signed' || value > 0 || (value === 0 && least === 'zero')) return;
    throw new RefusedError({
      code: 'out-of-range',
      message: `must be ${least === 'zero' ? '0 or more' : 'more than 0'}`,
    });
  }
}
