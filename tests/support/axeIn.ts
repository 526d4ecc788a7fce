/** What axe finds in a frame of a page, asked from outside of it. Its script is put into a frame once: that takes longer than most of what is asked of it. */
import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import type axeCore from 'axe-core';
import type { Frame, Page } from 'playwright-core';

declare global {
  interface Window {
    axe?: typeof axeCore;
  }
}

/** Read, not imported: to be imported it wants a window of its own. */
const script = readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8');

const wcagTags = ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa'];

export interface AxeAsked {
  /** These alone; else all that the levels A and AA of WCAG 2.2 have. */
  rules?: readonly string[];
  except?: readonly string[];
}

/** Each violation as its rule and the elements it stands at; none is an empty list. */
export async function axeIn(frame: Frame | Page, { rules, except = [] }: AxeAsked = {}): Promise<string[]> {
  if (!(await frame.evaluate(() => 'axe' in window))) await frame.evaluate(script);
  const runOnly =
    rules === undefined ? { type: 'tag' as const, values: wcagTags } : { type: 'rule' as const, values: [...rules] };
  const off = Object.fromEntries(except.map((rule) => [rule, { enabled: false }]));
  return frame.evaluate(
    async (options) => {
      const found = await window.axe?.run(document, options);
      if (found === undefined) throw new Error('axe is not in the frame');
      return found.violations.map(
        ({ id, nodes }) => `${id}: ${nodes.map(({ target }) => target.join(' ')).join(', ')}`,
      );
    },
    // What is right needs no list of its elements, which takes longer to make than the violations.
    { runOnly, rules: off, resultTypes: ['violations' as const], elementRef: false },
  );
}
