/** Printed words as a copier gives them back, read by a program that knows letters by their shape alone. */
import { spawnSync } from 'node:child_process';
import { greyMap } from './printedList.ts';
import { poppler, type PrintedText } from './printedPdf.ts';

/** Whether the program that reads letters is installed, with its English ones. */
export const hasOcr = /\beng\b/.test(spawnSync('tesseract', ['--list-langs'], { encoding: 'utf8' }).stdout ?? '');

/** At so many dots to the inch letters of 8 pt are about 20 dots high, which the reader asks for. */
const dpi = 300;
const dots = (mm: number): number => Math.round((mm * dpi) / 25.4);
/** White around what is cut out. */
const around = dots(2);

interface Cut {
  width: number;
  height: number;
  grey: Uint8Array;
}

/** What stands about some texts of a page, cut out of it as dots in greys; null where poppler is not installed. */
export function cutOuts(file: string, page: number, texts: readonly PrintedText[]): Cut[] | null {
  const bytes = poppler('pdftoppm', ['-r', String(dpi), '-gray', '-f', String(page), '-l', String(page), file]);
  if (bytes === null) return null;
  const map = greyMap(bytes);
  return texts.map(({ xMm, yMm, widthMm, sizePt }) => {
    const sizeMm = (sizePt * 25.4) / 72;
    const [left, top] = [dots(xMm - 0.5), dots(yMm - sizeMm * 0.86)];
    const [width, height] = [dots(widthMm + 1), dots(sizeMm * 1.16)];
    const grey = new Uint8Array(width * height);
    for (let y = 0; y < height; y += 1)
      grey.set(map.grey.subarray((top + y) * map.width + left, (top + y) * map.width + left + width), y * width);
    return { width, height, grey };
  });
}

/** As a copier without greys gives it back: its threshold at half. */
export function inBlack({ width, height, grey }: Cut): Cut {
  return { width, height, grey: grey.map((value) => (value < 128 ? 0 : 255)) };
}

/** Every word that is seen on pieces of pages, one below the other. */
export function seenOn(cuts: readonly Cut[]): string {
  const width = Math.max(...cuts.map((cut) => cut.width)) + 2 * around;
  const height = cuts.reduce((sum, cut) => sum + cut.height + around, around);
  const picture = Buffer.alloc(width * height, 255);
  let top = around;
  for (const cut of cuts) {
    for (let y = 0; y < cut.height; y += 1)
      picture.set(cut.grey.subarray(y * cut.width, (y + 1) * cut.width), (top + y) * width + around);
    top += cut.height + around;
  }
  const { stdout, status, stderr } = spawnSync(
    'tesseract',
    ['stdin', 'stdout', '-l', 'eng', '--dpi', String(dpi), '--psm', '6'],
    {
      input: Buffer.concat([Buffer.from(`P5\n${width} ${height}\n255\n`, 'latin1'), picture]),
      encoding: 'utf8',
      env: { ...process.env, OMP_THREAD_LIMIT: '1' },
    },
  );
  if (status !== 0) throw new Error(`tesseract ended with ${status}: ${stderr}`);
  return stdout.replace(/\s+/g, ' ');
}
