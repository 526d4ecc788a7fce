/** A hand on the keyboard alone: what it presses, and whether it sees at each stop where it is. */
import { expect } from 'vitest';
import { userEvent } from 'vitest/browser';

export const press = (...keys: string[]): Promise<void> =>
  keys.reduce((done, key) => done.then(() => userEvent.keyboard(key)), Promise.resolve());

/** As a person types it: what a key means to the keyboard itself is written twice. */
export const type = (text: string): Promise<void> =>
  userEvent.keyboard(text.replaceAll('{', '{{').replaceAll('[', '[['));

/** What a stop is called: by its label, its own words, or what it holds. */
function called(element: Element): string {
  const labelled = element.getAttribute('aria-label');
  if (labelled !== null) return labelled;
  const labels =
    element instanceof HTMLInputElement ||
    element instanceof HTMLSelectElement ||
    element instanceof HTMLTextAreaElement
      ? [...(element.labels ?? [])].map(({ textContent }) => textContent ?? '').join(' ')
      : '';
  return (labels === '' ? (element.textContent ?? '') : labels).trim();
}

/** What is drawn of a stop: a radio button and the field of a search by the frame around them. */
function drawnOf(element: Element): Element {
  const label = element instanceof HTMLInputElement && element.type === 'radio' ? element.closest('label') : null;
  const frame = element.parentElement;
  if (label !== null && getComputedStyle(label).outlineStyle !== 'none') return label;
  return frame !== null && element.matches('input') && getComputedStyle(frame).outlineStyle !== 'none'
    ? frame
    : element;
}

/** Of a drawing's part the ring is the line of what it may be pressed on. */
const hasDrawnRing = (element: Element): boolean =>
  element instanceof SVGGElement &&
  [...element.querySelectorAll('rect')].some((rect) => {
    const { stroke, strokeWidth } = getComputedStyle(rect);
    return stroke === drawnFocus() && Number.parseFloat(strokeWidth) >= 2;
  });

/** The colour of the ring as the page writes colours. */
function drawnFocus(): string {
  const probe = document.createElement('i');
  probe.style.color = 'var(--bw-focus)';
  document.body.append(probe);
  const { color } = getComputedStyle(probe);
  probe.remove();
  return color;
}

/** What is wrong with where the focus is: no ring of 2 px, out of view, or under something else. */
export function focusFaults(): string[] {
  const element = document.activeElement;
  if (element === null || element === document.body) return ['the focus is nowhere'];
  const drawn = drawnOf(element);
  const { outlineStyle, outlineWidth } = getComputedStyle(drawn);
  // A link that goes over two lines begins in the first of its boxes.
  const { left, top, width, height } = drawn.getClientRects()[0] ?? drawn.getBoundingClientRect();
  const at = document.elementFromPoint(left + Math.min(width / 2, 40), top + Math.min(height / 2, 12));
  const who = `${element.tagName} “${called(element).slice(0, 40)}”`;
  // To a heading or the sheet as a whole one is taken by the program, so that what is new is read; there is nothing to be done with it.
  const isHeading = /^(?:H[1-6]|MAIN)$/.test(element.tagName);
  return [
    ...(!isHeading && !hasDrawnRing(element) && (outlineStyle === 'none' || Number.parseFloat(outlineWidth) < 2)
      ? [`${who} has no ring`]
      : []),
    ...(at === null ? [`${who} is out of view`] : []),
    ...(at === null || drawn.contains(at) || at.contains(drawn) ? [] : [`${who} lies under ${at.className}`]),
  ];
}

const stopsMost = 150;

/** Tab by Tab to the stop that is called so; at each on the way it must be seen where the focus is. */
export async function tabTo(name: string | RegExp, key = '{Tab}'): Promise<void> {
  const passed: string[] = [];
  for (let stop = 0; stop < stopsMost; stop += 1) {
    const element = document.activeElement;
    const isHere =
      element !== null &&
      element !== document.body &&
      (typeof name === 'string' ? called(element) === name : name.test(called(element)));
    if (isHere) {
      expect(focusFaults()).toEqual([]);
      return;
    }
    await press(key);
    // At the end of the page the browser's own bar has the focus for one stop.
    if (document.activeElement !== document.body) expect(focusFaults()).toEqual([]);
    passed.push(document.activeElement === null ? '' : called(document.activeElement).slice(0, 24));
  }
  throw new Error(`no stop is called ${name}; passed were ${passed.join(' | ')}`);
}

/** Tab by Tab into the table that is called so. */
export async function tabInto(table: string): Promise<void> {
  for (let stop = 0; stop < stopsMost; stop += 1) {
    if (document.activeElement?.closest(`[role=grid][aria-label="${table}"]`) != null) return;
    await press('{Tab}');
    if (document.activeElement !== document.body) expect(focusFaults()).toEqual([]);
  }
  throw new Error(`no stop lies in the table ${table}`);
}

/** A field's whole text is written anew. */
export async function fillIn(name: string | RegExp, text: string): Promise<void> {
  await tabTo(name);
  await press('{Control>}a{/Control}');
  await type(text);
}

/** By the finder. */
export async function find(words: string): Promise<void> {
  await press('{Control>}k{/Control}');
  await expect.poll(() => document.activeElement?.getAttribute('role')).toBe('combobox');
  await type(words);
  await expect
    .poll(() => document.querySelector('[role=option][aria-selected=true]')?.textContent?.toLowerCase() ?? '')
    .toContain(words.toLowerCase());
  await press('{Enter}');
}
