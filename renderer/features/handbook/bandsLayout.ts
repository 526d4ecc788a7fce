import { convertValue } from '../../engine/units/index.ts';
import type { Unit } from '../../engine/units/index.ts';
import { textWidthPx } from '../../components/StackDrawing/labels.ts';
import { roundTicks } from '../../components/plot/ticks.ts';

export interface BandBar {
  name: string;
  text: string;
  /** Null where the source prints the other end alone. */
  minNm: number | null;
  maxNm: number | null;
}

export interface BandsLayout {
  widthPx: number;
  heightPx: number;
  leftPx: number;
  rightPx: number;
  axisY: number;
  rows: { y: number; fromPx: number; toPx: number; isOpen: boolean; name: string; text: string }[];
  ticks: { px: number; text: string }[];
}

const rowPx = 40;

/** Bands of several documents on one axis from 0: the words above each bar, so that long ones have room. */
export function bandsLayout(bars: readonly BandBar[], unit: Unit, widthPx: number): BandsLayout {
  const mostNm = Math.max(1e-9, ...bars.map(({ maxNm, minNm }) => maxNm ?? minNm ?? 0)) * 1.06;
  const most = convertValue(mostNm, 'N·m', unit);
  const ticks = roundTicks(0, most, 8);
  const leftPx = 14;
  const rightPx = widthPx - 14 - Math.ceil(textWidthPx(ticks.at(-1)?.text ?? '', 12) / 2);
  const px = (nm: number): number => leftPx + (nm / mostNm) * (rightPx - leftPx);
  const axisY = bars.length * rowPx + 8;
  return {
    ...{ widthPx, leftPx, rightPx, axisY },
    heightPx: axisY + 40,
    rows: bars.map(({ name, text, minNm, maxNm }, index) => {
      const to = px(maxNm ?? mostNm);
      const from = minNm === null ? leftPx : px(minNm);
      return {
        y: index * rowPx + 30,
        fromPx: from,
        toPx: Math.max(to, from + 3),
        isOpen: minNm === null || maxNm === null,
        name,
        text,
      };
    }),
    ticks: ticks.map(({ value, text }) => ({ px: px(convertValue(value, unit, 'N·m')), text })),
  };
}
