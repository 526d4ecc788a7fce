import { lightColours } from './lightColours.ts';
import latin from '@fontsource-variable/atkinson-hyperlegible-next/files/atkinson-hyperlegible-next-latin-wght-normal.woff2?url';
import math from '@fontsource/noto-sans-math/files/noto-sans-math-latin-400-normal.woff2?url';

export interface ExportWords {
  title: string;
  /** Lines under the drawing: source, assumptions. */
  under: string[];
}

const carried = [
  'fill',
  'stroke',
  'stroke-width',
  'stroke-dasharray',
  'stroke-linejoin',
  'paint-order',
  'font-size',
  'font-weight',
  'text-anchor',
  'transform',
] as const;

const svgNamespace = 'http://www.w3.org/2000/svg';
const family = "'Plot', 'Plot Math', sans-serif";
const linePx = 17;
const marginPx = 10;

/** The drawing as a document of its own: styles written out in the light colours, both faces inside, words under it. */
export async function svgOf(drawing: SVGSVGElement, { title, under }: ExportWords): Promise<string> {
  const colours = lightColours();
  const copy = styledCopy(drawing, colours);
  const [widthPx, heightPx] = [Number(drawing.getAttribute('width')), Number(drawing.getAttribute('height'))];
  const most = Math.floor(widthPx / 6.4);
  const lines = [title, ...under.flatMap((text) => wrapped(text, most))];
  const wholePx = heightPx + lines.length * linePx + 2 * marginPx;
  const whole = document.createElementNS(svgNamespace, 'svg');
  for (const [name, value] of Object.entries({
    width: widthPx + 2 * marginPx,
    height: wholePx,
    viewBox: `${-marginPx} ${-marginPx} ${widthPx + 2 * marginPx} ${wholePx}`,
    'font-family': family,
  }))
    whole.setAttribute(name, String(value));
  const style = document.createElementNS(svgNamespace, 'style');
  style.textContent = await faceRules();
  const ground = document.createElementNS(svgNamespace, 'rect');
  for (const [name, value] of Object.entries({
    x: -marginPx,
    y: -marginPx,
    width: widthPx + 2 * marginPx,
    height: wholePx,
    fill: colours.get('--bw-sheet') ?? 'white',
  }))
    ground.setAttribute(name, String(value));
  whole.append(style, ground, copy);
  for (const [index, text] of lines.entries()) {
    const line = document.createElementNS(svgNamespace, 'text');
    line.setAttribute('x', '0');
    line.setAttribute('y', String(heightPx + (index + 1) * linePx));
    line.setAttribute('font-size', '12');
    if (index === 0) line.setAttribute('font-weight', '650');
    line.setAttribute('fill', colours.get(index === 0 ? '--bw-ink' : '--bw-ink2') ?? 'black');
    line.textContent = text;
    whole.append(line);
  }
  return new XMLSerializer().serializeToString(whole);
}

const pixelsPerUnit = 3;

/** The same drawn out three times as large, as a picture for documents that take no drawings. */
export async function pngOf(drawing: SVGSVGElement, words: ExportWords): Promise<Uint8Array> {
  const text = await svgOf(drawing, words);
  const address = `data:image/svg+xml;base64,${base64Of(new TextEncoder().encode(text))}`;
  const image = new Image();
  image.src = address;
  await image.decode();
  const canvas = document.createElement('canvas');
  canvas.width = image.naturalWidth * pixelsPerUnit;
  canvas.height = image.naturalHeight * pixelsPerUnit;
  canvas.getContext('2d')?.drawImage(image, 0, 0, canvas.width, canvas.height);
  const blob = await new Promise<Blob | null>((resolve) => canvas.toBlob(resolve, 'image/png'));
  if (blob === null) throw new Error('The picture could not be drawn.');
  return new Uint8Array(await blob.arrayBuffer());
}

/**
 * Attributes rather than styles: the page's policy takes no style that stands in markup. They are computed where the light colours hold, whatever the window
 * shows: a file is read on paper.
 */
function styledCopy(drawing: SVGSVGElement, colours: ReadonlyMap<string, string>): SVGSVGElement {
  const copy = drawing.cloneNode(true) as SVGSVGElement;
  const room = document.createElement('div');
  room.style.position = 'fixed';
  room.style.visibility = 'hidden';
  room.setAttribute('aria-hidden', 'true');
  for (const [name, value] of colours) room.style.setProperty(name, value);
  room.append(copy);
  document.body.append(room);
  try {
    const elements = [copy, ...copy.querySelectorAll('*')];
    // All are read before any is changed: a style may hang on the class of an element around it.
    const read = elements.map((element) => {
      const style = getComputedStyle(element);
      return carried.map((name) => [name, style.getPropertyValue(name)] as const);
    });
    for (const [index, element] of elements.entries()) {
      element.removeAttribute('class');
      for (const [name, value] of read[index] ?? []) {
        if (value !== '' && value !== 'none') element.setAttribute(name, value.replaceAll('"', "'"));
        else if (name === 'fill' || name === 'stroke') element.setAttribute(name, 'none');
      }
      element.removeAttribute('style');
    }
  } finally {
    room.remove();
  }
  return copy;
}

function wrapped(text: string, most: number): string[] {
  const lines: string[] = [];
  let line = '';
  for (const word of text.split(' ')) {
    if (line !== '' && line.length + word.length + 1 > most) {
      lines.push(line);
      line = word;
    } else line = line === '' ? word : `${line} ${word}`;
  }
  return [...lines, line];
}

let rules: Promise<string> | null = null;

function faceRules(): Promise<string> {
  rules ??= readRules().catch((error: unknown) => {
    rules = null;
    throw error;
  });
  return rules;
}

async function readRules(): Promise<string> {
  const [text, signs] = await Promise.all([latin, math].map(faceData));
  const face = (name: string, data = '', weight: string) =>
    `@font-face{font-family:'${name}';font-weight:${weight};src:url(data:font/woff2;base64,${data}) format('woff2')}`;
  return face('Plot', text, '200 800') + face('Plot Math', signs, '400');
}

async function faceData(address: string): Promise<string> {
  const response = await fetch(address);
  if (!response.ok) throw new Error(`The program’s own font could not be read (${response.status}).`);
  return base64Of(new Uint8Array(await response.arrayBuffer()));
}

function base64Of(bytes: Uint8Array): string {
  let text = '';
  const piece = 0x8000;
  for (let at = 0; at < bytes.length; at += piece) text += String.fromCharCode(...bytes.subarray(at, at + piece));
  return btoa(text);
}
