/** What is under the hand, in hand, pressed or closed can be told: contrast computed as WCAG 2.2 defines it (relative luminance, SC 1.4.3 and 1.4.11). */
import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { darkTokens, lightTokens } from '../../renderer/tokens.ts';
import type { Tokens } from '../../renderer/tokens.ts';

type Name = keyof Tokens;

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

const grounds: Name[] = ['sheet', 'band', 'inset', 'ground'];

/** Words and what they stand on: as they are, under the pointer (band), pressed or in hand (straw), closed (inset). */
const words: [Name, Name[]][] = [
  ['ink', [...grounds, 'hand']],
  ['ink2', [...grounds, 'hand']],
  ['link', [...grounds, 'hand']],
  ['onact', ['act']],
];

/** Lines that say a state, and what they lie on. */
const lines: [Name, Name[]][] = [
  // Under the pointer.
  ['ink', [...grounds, 'hand']],
  ['onact', ['act']],
  ['thin', ['sheet', 'band', 'ground']],
  // In hand, with the focus, closed.
  ['handedge', [...grounds, 'hand']],
  ['focus', [...grounds, 'hand']],
  ['edge', grounds],
];

const below = (tokens: Tokens, pairs: [Name, Name[]][], least: number): string[] =>
  pairs.flatMap(([name, on]) =>
    on.flatMap((under) => {
      const ratio = contrast(tokens[name], tokens[under]);
      return ratio < least ? [`${name} on ${under}: ${ratio}`] : [];
    }),
  );

describe.each([
  ['light', lightTokens],
  ['dark', darkTokens],
] as const)('in %s colours', (_scheme, tokens) => {
  it('words are read in every state, 4.5 to 1', () => {
    expect(below(tokens, words, 4.5)).toEqual([]);
  });

  it('lines that say a state are seen on whatever they lie, 3 to 1', () => {
    expect(below(tokens, lines, 3)).toEqual([]);
  });
});

it('black on white is 21 to 1, and a grey just below is found', () => {
  expect(contrast('#000000', '#ffffff')).toBeCloseTo(21, 9);
  expect(below({ ...lightTokens, ink2: '#777777' }, words, 4.5)).toContainEqual(
    expect.stringMatching(/^ink2 on sheet/),
  );
});

it('nothing moves under the pointer: its rules set lines inside, colours and underlines alone', () => {
  const css = readFileSync(new URL('../../renderer/styles/base.css', import.meta.url), 'utf8');
  const [, rules = ''] = /@media \(hover: hover\) \{([\s\S]*?)\n\}/.exec(css) ?? [];
  const set = [...rules.matchAll(/^\s+([a-z-]+): /gm)].map(([, property]) => property);
  expect(set.length).toBeGreaterThan(6);
  expect(
    set.filter(
      (property) =>
        !/^(?:outline|outline-offset|border-color|text-decoration|text-underline-offset)$/.test(property ?? ''),
    ),
  ).toEqual([]);
  for (const [, offset] of rules.matchAll(/outline-offset: (-?\d+)px/g)) expect(Number(offset)).toBeLessThan(0);
});
