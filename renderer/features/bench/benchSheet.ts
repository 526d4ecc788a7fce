import type { EntryKind } from '../../components/QuantityField/readEntry.ts';
import type { MarkState } from '../../components/StateMark/StateMark.tsx';
import type { BandInput } from '../../components/BandFigure/bandLayout.ts';
import type { CurvePlotProps } from '../../components/plot/CurvePlot.tsx';
import type { CyclePlotData } from '../../components/plot/cyclePlotLayout.ts';
import type { PreloadPlotData } from '../../components/plot/preloadPlotLayout.ts';
import type { UnitsShown } from '../../engine/units/index.ts';
import type { LikeliestAsked, LikeliestFound } from '../../workers/likeliest.ts';

/** What stands in the fields of a sheet, as typed; a field without an entry is empty. */
export type Typed = Readonly<Record<string, string>>;

interface FieldHead {
  key: string;
  label: string;
  optional?: boolean;
  hint?: string;
  /** Absent: always there. */
  when?: (typed: Typed) => boolean;
  /** Stands beside the next or the last one. */
  half?: boolean;
}

export type BenchField = FieldHead &
  (
    | { is: 'quantity'; of: EntryKind }
    /** A plain number; its unit, if it has one, stands in the label. */
    | { is: 'number' }
    | { is: 'text' }
    | { is: 'lines' }
    | { is: 'choice'; choices: readonly { value: string; label: string }[] }
  );

/** A source in words; with the key of the table that holds it, where one does. */
export interface BenchSource {
  text: string;
  table: string | null;
  /** Which row of it, by its first column. */
  row?: string;
}

/** A formula in the notation of formula.ts: as it is, then with the numbers put in. */
export interface BenchFormula {
  formula: string;
  put: string;
  note?: string;
}

export type PlotWords = Pick<CurvePlotProps, 'title' | 'source' | 'assumed'>;

export type BenchFigure =
  | { is: 'band'; band: BandInput }
  | { is: 'offset-head'; leverMm: number; headMm: number; angleDeg: number; unit: 'mm' | 'in' }
  | { is: 'hexagons'; headMm: number; openingMm: number; freeAngleDeg: number | null; words: string }
  | { is: 'curve'; plot: Omit<CurvePlotProps, 'onSave' | 'onRefused'> }
  | { is: 'preload'; plot: PreloadPlotData & PlotWords }
  | { is: 'cycles'; plot: CyclePlotData & PlotWords };

export interface BenchTable {
  caption: string;
  heads: string[];
  rows: (string | { text: string; source: BenchSource })[][];
}

/** A result with all that has to stand beside it. */
export interface BenchAnswer {
  /** "Set the tool to" */
  lead: string;
  value: string;
  state?: { mark: MarkState; text?: string };
  facts: { name: string; value: string }[];
  formulas: BenchFormula[];
  tables: BenchTable[];
  figures: BenchFigure[];
  /** What the numbers say against it. */
  queries: string[];
  /** The range in which the formula holds, and what it is not for. */
  valid: string;
  assumed: string[];
  sources: BenchSource[];
  rounding: string;
}

export interface BenchSheet {
  id: string;
  name: string;
  fields: readonly BenchField[];
  /** What stands there at first: an example, said to be one. */
  first: Typed;
  /** Engine's path of a field to the key of the field here, where they differ. */
  paths?: Readonly<Record<string, string>>;
  /** What must be drawn for before there is an answer. @throws RefusedError as `answer` does */
  draws?: (typed: Typed) => LikeliestAsked;
  /**
   * @param drawn - what the draws gave, where it is at hand already; else it is drawn here
   * @throws RefusedError where the entries cannot be computed with
   */
  answer: (typed: Typed, units: UnitsShown, drawn?: LikeliestFound) => BenchAnswer;
}

/** The fields that the entries ask for now. */
export function fieldsNow(sheet: BenchSheet, typed: Typed): BenchField[] {
  return sheet.fields.filter(({ when }) => when === undefined || when(typed));
}

/** Fields that must be filled and are empty. */
export function missingFields(sheet: BenchSheet, typed: Typed): BenchField[] {
  return fieldsNow(sheet, typed).filter(({ key, optional }) => optional !== true && (typed[key] ?? '').trim() === '');
}
