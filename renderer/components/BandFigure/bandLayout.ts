import type { BandNm } from '../../engine/plan/resolved.ts';
import { bandIn, convertValue, readQuantity, showBand, showNumber, showQuantity } from '../../engine/units/index.ts';
import type { Unit, UnitsShown } from '../../engine/units/index.ts';
import { textWidthPx, twoLines } from '../StackDrawing/labels.ts';

export interface BandInput {
  callout: BandNm;
  applied: BandNm | null;
  setting: { value: number; unit: string } | null;
  running: BandNm | null;
  runningIncluded: boolean;
  unit: Unit;
  units: UnitsShown;
}

export interface BandRow {
  name: string;
  /** "callout" is a box, "applied" a bar, "running" a part. */
  kind: 'callout' | 'wrench' | 'applied' | 'running';
  fromPx: number;
  toPx: number;
  /** Of "applied" the setting; of "running" where the least ends. */
  markPx: number | null;
  y: number;
  /** The authority, and the other unit on a second line. */
  lines: string[];
}

export interface BandLayout {
  widthPx: number;
  heightPx: number;
  axisY: number;
  leftPx: number;
  rightPx: number;
  rows: BandRow[];
  ticks: { px: number; text: string }[];
  axis: string;
}

const nameColumnPx = 84;
const rowPx = 34;
const firstRowY = 22;
const plotLeastPx = 150;

/** Where every band lies on one torque axis; the axis starts at 0 where running torque is shown, so that parts compare. */
export function bandLayout(input: BandInput, wantedWidthPx: number): BandLayout {
  const { callout, applied, setting, running, runningIncluded, unit, units } = input;
  const axisUnit = shownUnit(unit, units);
  const wrench = running === null || runningIncluded ? null : wrenchBand(callout, running);
  const settingNm = setting === null ? null : nmOf(setting);
  const rows = [
    row('callout', 'callout', callout, null, bandText(callout, unit, units)),
    ...(wrench === null
      ? []
      : [
          row(
            'on the wrench',
            'wrench',
            wrench,
            null,
            wrench.minNm > wrench.maxNm ? 'empty band' : bandText(wrench, unit, units),
          ),
        ]),
    ...(applied === null ? [] : [row('applied', 'applied', applied, settingNm, appliedText(applied, setting, unit))]),
    ...(running === null
      ? []
      : [
          row(
            runningIncluded ? 'of it running' : 'running, added',
            'running',
            { minNm: 0, maxNm: running.maxNm },
            running.minNm,
            bandText(running, unit, units),
          ),
        ]),
  ];
  const textPx = Math.max(...rows.flatMap(({ text }) => linesOf(text)).map((line) => textWidthPx(line))) + 16;
  const widthPx = Math.max(wantedWidthPx, nameColumnPx + plotLeastPx + textPx);
  const leftPx = nameColumnPx + 10;
  const rightPx = widthPx - textPx - 10;
  const [lowNm, highNm] = domain(
    rows.map(({ band }) => band),
    running !== null,
  );
  const px = (nm: number): number => leftPx + ((nm - lowNm) / (highNm - lowNm)) * (rightPx - leftPx);
  const axisY = firstRowY + rows.length * rowPx - 6;
  return {
    widthPx,
    heightPx: axisY + 40,
    axisY,
    leftPx,
    rightPx,
    rows: rows.map(({ name, kind, band, markNm, text }, index) => ({
      name,
      kind,
      fromPx: px(band.minNm),
      toPx: Math.max(px(band.maxNm), px(band.minNm) + 2),
      markPx: markNm === null ? null : px(markNm),
      y: firstRowY + index * rowPx,
      lines: linesOf(text),
    })),
    ticks: ticks(convertValue(lowNm, 'N·m', axisUnit), convertValue(highNm, 'N·m', axisUnit)).map((value) => ({
      px: px(convertValue(value, axisUnit, 'N·m')),
      text: showNumber(value),
    })),
    axis: `torque / ${axisUnit}`,
  };
}

interface Row {
  name: string;
  kind: BandRow['kind'];
  band: BandNm;
  markNm: number | null;
  text: string;
}

function row(name: string, kind: BandRow['kind'], band: BandNm, markNm: number | null, text: string): Row {
  return { name, kind, band, markNm, text };
}

/** The setting stands above the band it gives, so that the unit stays in the frame. */
function linesOf(text: string): string[] {
  const [set, band] = text.split(': ');
  return set !== undefined && band !== undefined ? [`${set}:`, band] : twoLines(text);
}

/** The callout moved by running torque, its ends taken against each other: the contract's rule 6. */
function wrenchBand(callout: BandNm, running: BandNm): BandNm {
  return { minNm: callout.minNm + running.maxNm, maxNm: callout.maxNm + running.minNm };
}

function nmOf({ value, unit }: { value: number; unit: string }): number {
  const read = readQuantity(`${value} ${unit}`, 'torque');
  return convertValue(read.value, read.unit, 'N·m');
}

function shownUnit(unit: Unit, units: UnitsShown): Unit {
  if (units === 'as-written' || units === 'both') return unit;
  return readQuantity(showQuantity(`100 ${unit}`, units), 'torque').unit;
}

/** Limits as they were typed: the digits that a trip through N·m costs are taken off before the ends round inward. */
function bandText({ minNm, maxNm }: BandNm, unit: Unit, units: UnitsShown): string {
  const clean = (nm: number): number => Number(showNumber(convertValue(nm, 'N·m', unit), 12));
  const [low, high] = [clean(minNm), clean(maxNm)];
  if (isShort(low) && isShort(high)) return showBand(`${low} ${unit}`, `${high} ${unit}`, units);
  const { min, max } = bandIn({ min: low, max: high, unit }, unit);
  return showBand(`${min} ${unit}`, `${max} ${unit}`, units);
}

/** Few enough digits to have been typed: such an end stands as it was. */
function isShort(value: number): boolean {
  return value === Number(showNumber(value, 6));
}

/** An applied band is no limit: its ends are rounded to four digits, not inward. */
function appliedText(applied: BandNm, setting: BandInput['setting'], unit: Unit): string {
  const shown = setting === null ? unit : readQuantity(`${setting.value} ${setting.unit}`, 'torque').unit;
  const [min, max] = [applied.minNm, applied.maxNm].map((nm) => showNumber(convertValue(nm, 'N·m', shown)));
  const band = `${min}–${max} ${shown}`;
  return setting === null ? band : `${showNumber(setting.value, 6)} set: ${band}`;
}

function domain(bands: BandNm[], fromZero: boolean): [number, number] {
  const low = Math.min(...bands.map((b) => Math.min(b.minNm, b.maxNm)));
  const high = Math.max(...bands.map((b) => Math.max(b.minNm, b.maxNm)));
  const margin = Math.max((high - low) * 0.25, high * 0.02);
  return [fromZero ? 0 : Math.max(0, low - margin), high + margin * (fromZero ? 0.4 : 1)];
}

/** Round steps of 1, 2 or 5, at most six of them. */
export function ticks(low: number, high: number): number[] {
  const rough = (high - low) / 5;
  const power = 10 ** Math.floor(Math.log10(rough));
  const step = [1, 2, 5, 10].map((n) => n * power).find((candidate) => candidate >= rough) ?? rough;
  const first = Math.ceil(low / step - 1e-9);
  const last = Math.floor(high / step + 1e-9);
  return Array.from({ length: last - first + 1 }, (_, index) => (first + index) * step);
}
