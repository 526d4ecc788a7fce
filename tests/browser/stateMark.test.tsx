import { describe, expect, test } from 'vitest';
import { marks, type MarkState } from '../../renderer/components/StateMark/marks.tsx';
import { StateMark } from '../../renderer/components/StateMark/StateMark.tsx';
import { darkTokens, lightTokens } from '../../renderer/tokens.ts';
import { shown } from './shown.tsx';

const states = Object.keys(marks) as MarkState[];

function luminance(hex: string): number {
  const [r = 0, g = 0, b = 0] = [1, 3, 5].map((at) => {
    const share = Number.parseInt(hex.slice(at, at + 2), 16) / 255;
    return share <= 0.04045 ? share / 12.92 : ((share + 0.055) / 1.055) ** 2.4;
  });
  return 0.2126 * r + 0.7152 * g + 0.0722 * b;
}

function contrast(a: string, b: string): number {
  const [high = 0, low = 0] = [luminance(a), luminance(b)].toSorted((x, y) => y - x);
  return (high + 0.05) / (low + 0.05);
}

describe('state marks', () => {
  test('every state has a word and a shape that no other has', async () => {
    const screen = await shown(
      <>
        {states.map((state) => (
          <p key={state}>
            <StateMark state={state} />
          </p>
        ))}
      </>,
    );
    const drawn = [...screen.container.querySelectorAll('p')].map((p) => ({
      word: p.textContent,
      shape: new XMLSerializer().serializeToString(p.querySelector('svg') ?? p),
    }));
    expect(drawn).toHaveLength(states.length);
    expect(new Set(drawn.map(({ word }) => word)).size).toBe(states.length);
    expect(new Set(drawn.map(({ shape }) => shape)).size).toBe(states.length);
    expect(drawn.every(({ word }) => (word ?? '').length > 1)).toBe(true);
  });

  test('shapes stay apart in greyscale, painted at the size of a row', async () => {
    const pictures: number[][] = [];
    for (const state of states) pictures.push(await greyPicture(state));
    const same: string[] = [];
    pictures.forEach((a, i) =>
      pictures.slice(i + 1).forEach((b, j) => {
        const apart = a.reduce((sum, grey, at) => sum + Math.abs(grey - (b[at] ?? 0)), 0) / 255;
        // At least a dozen whole pixels of ink differ between any two marks of 24 × 16.
        if (apart < 12) same.push(`${states[i]} and ${states[i + 1 + j]}: ${Math.round(apart)} px`);
      }),
    );
    expect(same).toEqual([]);
  });

  test('words reach 4.5 to 1 on every ground they stand on, light and dark', () => {
    for (const tokens of [lightTokens, darkTokens]) {
      for (const tone of [tokens.ok, tokens.bad, tokens.doubt, tokens.move, tokens.ink]) {
        for (const ground of [tokens.sheet, tokens.band, tokens.inset, tokens.ground, tokens.hand]) {
          expect(contrast(tone, ground)).toBeGreaterThanOrEqual(4.5);
        }
      }
    }
  });

  test('more may be said than the state’s own word', async () => {
    const screen = await shown(<StateMark state="saved" text="Saved 10:42" />);
    expect(screen.container.textContent).toContain('Saved 10:42');
  });
});

/** The mark in black on white, as grey values of 24 × 16 pixels. */
async function greyPicture(state: MarkState): Promise<number[]> {
  const screen = await shown(<StateMark state={state} />);
  const svg = screen.container.querySelector('svg');
  if (svg === null) throw new Error(`${state} has no shape`);
  const copy = svg.cloneNode(true) as SVGSVGElement;
  copy.setAttribute('xmlns', 'http://www.w3.org/2000/svg');
  copy.setAttribute('fill', 'none');
  copy.setAttribute('stroke', 'black');
  copy.setAttribute('stroke-width', '1.6');
  for (const solid of copy.querySelectorAll('[data-solid]')) solid.setAttribute('style', 'fill:black;stroke:none');
  await screen.unmount();
  const picture = new Image();
  picture.src = `data:image/svg+xml,${encodeURIComponent(new XMLSerializer().serializeToString(copy))}`;
  await picture.decode();
  const canvas = new OffscreenCanvas(24, 16);
  const context = canvas.getContext('2d');
  if (context === null) throw new Error('no canvas');
  context.fillStyle = 'white';
  context.fillRect(0, 0, 24, 16);
  context.drawImage(picture, 0, 0);
  const { data } = context.getImageData(0, 0, 24, 16);
  return Array.from({ length: 24 * 16 }, (_, at) => data[at * 4] ?? 0);
}
