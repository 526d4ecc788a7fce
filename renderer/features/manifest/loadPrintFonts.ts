import latin from '@fontsource-variable/atkinson-hyperlegible-next/files/atkinson-hyperlegible-next-latin-wght-normal.woff2?url';
import latinExt from '@fontsource-variable/atkinson-hyperlegible-next/files/atkinson-hyperlegible-next-latin-ext-wght-normal.woff2?url';
import mono from '@fontsource-variable/atkinson-hyperlegible-mono/files/atkinson-hyperlegible-mono-latin-wght-normal.woff2?url';
import math from '@fontsource/noto-sans-math/files/noto-sans-math-latin-400-normal.woff2?url';
import { latinExtRange, mathRange, type PrintFace } from './printFonts.ts';

let loaded: Promise<PrintFace[]> | null = null;

/** The program's own faces, read once and written into every document printed. A failed read is tried again. */
export function loadPrintFonts(): Promise<PrintFace[]> {
  loaded ??= read().catch((error: unknown) => {
    loaded = null;
    throw error;
  });
  return loaded;
}

async function read(): Promise<PrintFace[]> {
  const [latinData, latinExtData, monoData, mathData] = await Promise.all([latin, latinExt, mono, math].map(base64Of));
  return [
    { family: 'Sheet', weight: '200 800', unicodeRange: null, data: latinData ?? '' },
    { family: 'Sheet', weight: '200 800', unicodeRange: latinExtRange, data: latinExtData ?? '' },
    { family: 'SheetMono', weight: '200 800', unicodeRange: null, data: monoData ?? '' },
    { family: 'SheetMath', weight: '400', unicodeRange: mathRange, data: mathData ?? '' },
  ];
}

async function base64Of(address: string): Promise<string> {
  const response = await fetch(address);
  if (!response.ok) throw new Error(`The program’s own font could not be read (${response.status}).`);
  const bytes = new Uint8Array(await response.arrayBuffer());
  let text = '';
  const piece = 0x8000;
  for (let at = 0; at < bytes.length; at += piece) text += String.fromCharCode(...bytes.subarray(at, at + piece));
  return btoa(text);
}
