import { MantineProvider } from '@mantine/core';
import type { ReactElement } from 'react';
import { render } from 'vitest-browser-react';
import '../../renderer/styles/base.css';
import '../../renderer/styles/fonts.css';
import { resolver, theme } from '../../renderer/theme.ts';

/** A component as the window shows it: theme, tokens, fonts; in a frame of a width. */
export async function shown(element: ReactElement, options: { widthPx?: number; scheme?: 'light' | 'dark' } = {}) {
  const { widthPx = 900, scheme = 'light' } = options;
  const screen = await render(
    <MantineProvider theme={theme} cssVariablesResolver={resolver} forceColorScheme={scheme}>
      <div style={{ width: `${widthPx}px` }}>{element}</div>
    </MantineProvider>,
  );
  await document.fonts.ready;
  return screen;
}

export interface Box {
  text: string;
  left: number;
  right: number;
  top: number;
  bottom: number;
}

/** What each text of a drawing covers, in px of the drawing itself. */
export function textBoxes(svg: SVGSVGElement): Box[] {
  return [...svg.querySelectorAll('text')]
    .filter((text) => (text.textContent ?? '').trim() !== '')
    .map((text) => {
      const { x, y, width, height } = text.getBBox();
      // A line's box has room above and below its letters, which may touch another's room.
      return { text: text.textContent ?? '', left: x, right: x + width, top: y + 2, bottom: y + height - 2 };
    });
}

export function overlaps(boxes: readonly Box[]): string[] {
  return boxes.flatMap((a, index) =>
    boxes
      .slice(index + 1)
      .filter((b) => a.left < b.right && b.left < a.right && a.top < b.bottom && b.top < a.bottom)
      .map((b) => `"${a.text}" on "${b.text}"`),
  );
}
