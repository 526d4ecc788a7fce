/** A label printer's dots: bars and modules are whole numbers of them, or their edges fall between. */
import { code128Quiet } from './code128.ts';
import { qrQuiet } from './qrModules.ts';

export type PrinterDpi = 203 | 300;

/** [mm]. Printers of 203 dpi have 8 dots to the mm, common practice, no source. */
const dotMm = { 203: 1 / 8, 300: 25.4 / 300 } as const;

/** Narrower than these the trade's hand readers lose codes on worn labels: common practice, no source. [mm] */
const barLeastMm = 0.33;
const moduleLeastMm = 0.5;

/** How large the symbols of a label are, in a printer's dots. */
export interface SymbolDots {
  dotMm: number;
  /** The narrowest bar. */
  bar: number;
  /** White on either side of the bars. */
  barQuiet: number;
  /** A module of the square. */
  module: number;
  moduleQuiet: number;
}

/**
 * Sizes of bars and modules on a printer: the smallest whole numbers of dots that are wide enough.
 *
 *   bar ≥ 0.33 mm, module ≥ 0.5 mm; white 10 bars, 4 modules
 *
 * @param dpi - 203 or 300 dots to the inch
 * @returns sizes in dots, and a dot in mm
 * @source white around: ISO/IEC 15417 (10 X), ISO/IEC 18004 (4 modules); least widths: common practice, no source
 * @example symbolDots(203).bar // 3, which is 0.375 mm
 */
export function symbolDots(dpi: PrinterDpi): SymbolDots {
  const dot = dotMm[dpi];
  const bar = Math.ceil(barLeastMm / dot);
  const module = Math.ceil(moduleLeastMm / dot);
  return { dotMm: dot, bar, barQuiet: bar * code128Quiet, module, moduleQuiet: module * qrQuiet };
}
