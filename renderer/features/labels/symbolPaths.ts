import { code128Widths, qrModules } from '../../engine/tag/index.ts';
import type { LabelPlaces } from './labelForm.ts';

/** Bars and square of a label as one path in a printer's dots, from the page's corner at which the label begins. */
export function symbolPath(text: string, places: LabelPlaces, from: { x: number; y: number }): string {
  const { square, bars, dots } = places;
  const pieces: string[] = [];
  if (bars !== null) {
    let x = from.x + bars.x;
    for (const [at, width] of code128Widths(text).entries()) {
      const size = width * dots.bar;
      if (at % 2 === 0) pieces.push(`M${x} ${from.y + bars.y}h${size}v${bars.height}h${-size}z`);
      x += size;
    }
  }
  if (square !== null) {
    const { module } = dots;
    for (const [row, modules] of qrModules(text).entries())
      for (const { at, count } of darkRuns(modules)) {
        const [x, y] = [from.x + square.x + at * module, from.y + square.y + row * module];
        pieces.push(`M${x} ${y}h${count * module}v${module}h${-count * module}z`);
      }
  }
  return pieces.join('');
}

/** Dark modules that stand side by side. */
function darkRuns(modules: readonly boolean[]): { at: number; count: number }[] {
  const runs: { at: number; count: number }[] = [];
  for (const [at, isDark] of modules.entries()) {
    if (!isDark) continue;
    const last = runs.at(-1);
    if (last !== undefined && last.at + last.count === at) last.count += 1;
    else runs.push({ at, count: 1 });
  }
  return runs;
}
