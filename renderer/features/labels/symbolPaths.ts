import { code128Widths, qrModules } from '../../engine/tag/index.ts';
import type { LabelPlaces } from './labelForm.ts';

/** Bars and square of a label as a path in a printer's dots, from the page's corner at which the label begins. */
export function symbolPath(text: string, places: LabelPlaces, from: { x: number; y: number }): string {
  const { square, bars, dots } = places;
  const pieces: string[] = [];
  if (bars !== null) {
    let x = from.x + bars.x;
    for (const [at, width] of code128Widths(text).entries()) {
      const size = width * dots.bar;
      if (at % 2 === 0) pieces.push(rectangle(x, from.y + bars.y, size, bars.height));
      x += size;
    }
  }
  if (square !== null) {
    const { module } = dots;
    const [left, top] = [from.x + square.x, from.y + square.y];
    for (const { x, y, width, height } of darkRectangles(qrModules(text)))
      pieces.push(rectangle(left + x * module, top + y * module, width * module, height * module));
  }
  return pieces.join('');
}

const rectangle = (x: number, y: number, width: number, height: number): string =>
  `M${x} ${y}h${width}v${height}h${-width}z`;

interface Modules {
  x: number;
  y: number;
  width: number;
  height: number;
}

/** Dark modules side by side, and rows of them that are alike below each other: a third fewer than row by row. */
function darkRectangles(modules: readonly (readonly boolean[])[]): Modules[] {
  const found: Modules[] = [];
  let above = new Map<string, Modules>();
  for (const [y, row] of modules.entries()) {
    const here = new Map<string, Modules>();
    for (const { x, width } of darkRuns(row)) {
      const key = `${x} ${width}`;
      const grown = above.get(key) ?? { x, y, width, height: 0 };
      if (grown.height === 0) found.push(grown);
      grown.height += 1;
      here.set(key, grown);
    }
    above = here;
  }
  return found;
}

function darkRuns(row: readonly boolean[]): Pick<Modules, 'x' | 'width'>[] {
  const runs: { x: number; width: number }[] = [];
  for (const [x, isDark] of row.entries()) {
    if (!isDark) continue;
    const last = runs.at(-1);
    if (last !== undefined && last.x + last.width === x) last.width += 1;
    else runs.push({ x, width: 1 });
  }
  return runs;
}
