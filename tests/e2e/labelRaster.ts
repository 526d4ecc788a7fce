/** Printed labels as a printer's dots: pages rasterised, labels cut out of them, read by another program, measured. */
import { spawnSync } from 'node:child_process';
import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { poppler } from './printedPdf.ts';

/** A grey picture, a byte for each dot. */
export interface Raster {
  width: number;
  height: number;
  at: (x: number, y: number) => number;
}

function pgm(bytes: Buffer): Raster {
  const head = /^P5\s+(\d+)\s+(\d+)\s+255\s/.exec(bytes.subarray(0, 40).toString('latin1'));
  if (head === null) throw new Error('not a grey picture of eight bits');
  const [all, width, height] = [head[0].length, Number(head[1]), Number(head[2])];
  return { width, height, at: (x, y) => bytes[all + y * width + x] ?? 255 };
}

/** Every page at so many dots to the inch; null where poppler is not installed. */
export function rasterised(pdf: Uint8Array, dpi: number, folder: string): Raster[] | null {
  const file = join(folder, 'labels.pdf');
  writeFileSync(file, pdf);
  const info = poppler('pdfinfo', [file]);
  if (info === null) return null;
  const count = Number(/^Pages:\s+(\d+)/m.exec(info.toString())?.[1]);
  return Array.from({ length: count }, (_, at) => {
    const name = join(folder, `page-${at}`);
    poppler('pdftoppm', ['-r', String(dpi), '-gray', '-singlefile', '-f', String(at + 1), file, name]);
    return pgm(readFileSync(`${name}.pgm`));
  });
}

/** A part of a picture in a file of its own, as a reader's eye has it before it. */
export function cutOut(from: Raster, at: { x: number; y: number; width: number; height: number }, file: string): void {
  const bytes = Buffer.alloc(at.width * at.height, 255);
  for (let y = 0; y < at.height; y += 1)
    for (let x = 0; x < at.width; x += 1) bytes[y * at.width + x] = from.at(at.x + x, at.y + y);
  writeFileSync(file, Buffer.concat([Buffer.from(`P5\n${at.width} ${at.height}\n255\n`, 'latin1'), bytes]));
}

/** Whether the program that reads symbols is installed. */
export const hasReader = spawnSync('zbarimg', ['--version']).error === undefined;

/** What stands in each picture, by the name of its file: "CODE-128:100…", "QR-Code:100…". */
export function readSymbols(files: readonly string[]): Map<string, string[]> {
  const read = new Map<string, string[]>();
  for (let from = 0; from < files.length; from += 250) {
    const some = files.slice(from, from + 250);
    const { stdout } = spawnSync('zbarimg', ['--quiet', '--nodbus', '--xml', ...some], {
      encoding: 'utf8',
      maxBuffer: 64 * 1024 * 1024,
    });
    for (const [, file = '', body = ''] of stdout.matchAll(/<source href='([^']*)'>(.*?)<\/source>/gs))
      read.set(
        file,
        [...body.matchAll(/<symbol type='([^']*)'.*?<!\[CDATA\[(.*?)\]\]>/gs)].map(
          ([, kind, text]) => `${kind}:${text}`,
        ),
      );
  }
  return read;
}

/** Runs of dark and light dots along a row, from the first dark one to the last, as a printer without greys takes them. */
export function runsAlong(
  from: Raster,
  y: number,
  x: { from: number; to: number },
): { runs: number[]; firstX: number } {
  const runs: number[] = [];
  let [firstX, isDark, count] = [-1, false, 0];
  for (let at = x.from; at < x.to; at += 1) {
    const dark = from.at(at, y) < 128;
    if (firstX < 0) {
      if (!dark) continue;
      [firstX, isDark, count] = [at, true, 0];
    }
    if (dark === isDark) count += 1;
    else {
      runs.push(count);
      [isDark, count] = [dark, 1];
    }
  }
  return { runs: isDark ? [...runs, count] : runs, firstX };
}
