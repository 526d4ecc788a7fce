/**
 * What is drawn can be seen on whatever it lies: contrast computed as WCAG 2.2 defines it (relative luminance; SC 1.4.3 for words, SC 1.4.11
 * for what a drawing says). The colours are read from each drawing's own styles.
 */
import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { darkTokens, lightTokens } from '../../renderer/tokens.ts';
import type { Tokens } from '../../renderer/tokens.ts';

type Name = keyof Tokens;

const drawings = [
  ...['BagMap/BagMap', 'BandFigure/BandFigure', 'PatternPlan/PatternPlan', 'SearchPlot/SearchPlot'].map(
    (name) => `renderer/components/${name}.module.css`,
  ),
  ...['StackDrawing/StackDrawing', 'plot/Plot'].map((name) => `renderer/components/${name}.module.css`),
  'renderer/features/asrun/pattern.css',
];

/** Bodies and grounds: light in the light scheme, dark in the dark one; words and lines lie on them. */
const bodies = new Set<Name>([
  ...(['ground', 'sheet', 'band', 'inset', 'hand', 'okbg', 'badbg', 'doubtbg', 'movebg'] as const),
  ...(['steel', 'steel2', 'tool', 'brass'] as const),
]);
/** Lines that say nothing by themselves: the ruling behind a plot, the hatching of a body whose outline and words say it. */
const ruling = new Set<Name>(['rule', 'cut']);
/** Lines around a drawing or around the place of a body, which has an outline of its own within them. */
const framing = new Set<Name>(['edge', 'handedge']);
const papers = new Set<Name>(['sheet', 'inset', 'hand']);

/** Relative luminance, WCAG 2.2. */
function luminance(colour: string): number {
  const [red = 0, green = 0, blue = 0] = [1, 3, 5].map((at) => {
    const share = Number.parseInt(colour.slice(at, at + 2), 16) / 255;
    return share <= 0.04045 ? share / 12.92 : ((share + 0.055) / 1.055) ** 2.4;
  });
  return 0.2126 * red + 0.7152 * green + 0.0722 * blue;
}

function contrast(one: string, other: string): number {
  const [light = 0, dark = 0] = [luminance(one), luminance(other)].toSorted((a, b) => b - a);
  return (light + 0.05) / (dark + 0.05);
}

function used(file: string): { lines: Set<Name>; marks: Set<Name>; grounds: Set<Name> } {
  const css = readFileSync(file, 'utf8');
  const found = [...css.matchAll(/(stroke|fill): var\(--bw-([a-z0-9]+)\)/g)];
  const of = (property: string): Name[] =>
    found.flatMap(([, one, name]) =>
      one === property && name !== undefined && name in lightTokens ? [name as Name] : [],
    );
  const grounds = new Set<Name>(['sheet', 'inset', ...of('fill').filter((name) => bodies.has(name))]);
  const lines = new Set(of('stroke').filter((name) => !bodies.has(name) && !ruling.has(name)));
  return { lines, marks: new Set(of('fill').filter((name) => !bodies.has(name) && !ruling.has(name))), grounds };
}

describe.each([
  ['light', lightTokens],
  ['dark', darkTokens],
] as const)('in %s colours', (_scheme, tokens) => {
  it.each(drawings)('%s: lines and marks, 3 to 1; words, 4.5 to 1', (file) => {
    const { lines, marks, grounds } = used(file);
    expect(lines.size).toBeGreaterThan(1);
    const faint = (names: Iterable<Name>, least: number): string[] =>
      [...names].flatMap((name) =>
        [...grounds].flatMap((under) => {
          if (framing.has(name) && !papers.has(under)) return [];
          const ratio = contrast(tokens[name], tokens[under]);
          return ratio < least ? [`${name} on ${under}: ${Math.round(ratio * 100) / 100}`] : [];
        }),
      );
    expect(faint(lines, 3)).toEqual([]);
    expect(faint(marks, 3)).toEqual([]);
    const words = (['ink', 'ink2'] as const).filter((name) => marks.has(name));
    expect(faint(words, 4.5)).toEqual([]);
  });
});

it('contrast is as defined: black on white 21, a colour on itself 1, #767676 on white 4.54', () => {
  // WCAG 2.2, relative luminance and contrast ratio; #767676 is the lightest grey that passes 4.5 on white, common practice.
  expect(contrast('#000000', '#FFFFFF')).toBeCloseTo(21, 10);
  expect(contrast('#143F4B', '#143F4B')).toBe(1);
  expect(contrast('#767676', '#FFFFFF')).toBeCloseTo(4.54, 2);
});
