/** What is measured on a page as it stands: what runs out of it, what is cut off, what is too small, what says its state by colour alone. */

/** What may be wider than its frame: tables and drawings scroll inside their own, by arrows too. */
const scrolls = '[role=grid], .bw-task-scroll, .bw-table-scroll, .bw-catalog-scroll, .bw-catalog-segments, svg';
/** Cells of one line, whose row is whole in the sheet beside; and what is there for a reader alone. */
const cutByDesign =
  '.bw-grid-cell, .bw-table-rows, .bw-strip-value, .bw-task-name, .bw-task-second, .bw-hidden, option, svg';

const named = (element: Element): string =>
  `${element.tagName.toLowerCase()}.${[...element.classList].join('.')} “${element.textContent?.trim().slice(0, 40)}”`;

const frame = (): Element => document.querySelector('dialog[open]') ?? document.body;

const isShown = (element: Element): boolean =>
  element.checkVisibility({ contentVisibilityAuto: true, opacityProperty: true, visibilityProperty: true });

/** How far the page, or a sheet over it, runs out of its width; none is an empty list. */
export function sideways(): string[] {
  const roots = [document.documentElement, ...document.querySelectorAll('dialog[open]')];
  const wide = roots.filter((root) => root.scrollWidth > root.clientWidth + 1);
  return wide.map((root) => {
    const past = [...root.querySelectorAll('*')].filter(
      (element) => element.closest(scrolls) === null && element.getBoundingClientRect().right > root.clientWidth + 1,
    );
    return `${root.tagName} ${root.scrollWidth} in ${root.clientWidth} px: ${past.slice(0, 3).map(named).join(', ')}`;
  });
}

/** Words that are cut off by the edge of what holds them. */
export function cutOff(): string[] {
  return [...frame().querySelectorAll('*')].flatMap((element) => {
    const hasWords = [...element.childNodes].some(
      (node) => node.nodeType === Node.TEXT_NODE && node.textContent?.trim() !== '',
    );
    if (!hasWords || element.closest(cutByDesign) !== null || !isShown(element)) return [];
    // From the words out to the first frame that lets what is too much go away.
    const range = document.createRange();
    range.selectNodeContents(element);
    const words = range.getBoundingClientRect();
    for (let at: Element | null = element; at !== null && at !== document.body; at = at.parentElement) {
      const { overflowX, overflowY } = getComputedStyle(at);
      if ([overflowX, overflowY].some((one) => one === 'auto' || one === 'scroll')) break;
      const box = at.getBoundingClientRect();
      // Headings that only a reader is given, where the table is laid out as a list.
      if (box.width <= 4 && box.height <= 4) return [];
      const cutsX = overflowX === 'hidden' || overflowX === 'clip';
      const cutsY = overflowY === 'hidden' || overflowY === 'clip';
      if (cutsX && (words.right > box.right + 1 || words.left < box.left - 1)) return [named(element)];
      if (cutsY && (words.bottom > box.bottom + 2 || words.top < box.top - 2)) return [named(element)];
    }
    return [];
  });
}

/** What can be pressed and is smaller than 24 px either way; links in running text are let off, as the rule does. */
export function tooSmall(): string[] {
  const targets = frame().querySelectorAll(
    'button, select, input, textarea, a[href], [role=row][tabindex], [role=option], summary',
  );
  return [...targets].flatMap((target) => {
    const drawn =
      target instanceof HTMLInputElement && ['radio', 'checkbox'].includes(target.type)
        ? (target.closest('label') ?? target)
        : target;
    const { width, height } = drawn.getBoundingClientRect();
    const inText = target instanceof HTMLAnchorElement && getComputedStyle(target).display === 'inline';
    const off = width === 0 || !isShown(target) || target.classList.contains('bw-skip');
    return off || inText || (width >= 24 && height >= 24) ? [] : [`${named(target)} ${width} × ${height}`];
  });
}

/** States without a word or without a shape. */
export function byColourAlone(): string[] {
  return [...frame().querySelectorAll('[data-state]')]
    .filter((mark) => mark.textContent?.trim() === '' || mark.querySelector('svg') === null)
    .map(named);
}

/** Line, letter, word and paragraph spacing as WCAG 2.2, 1.4.12 asks that a page bears. */
export function spaceText(): () => void {
  const style = document.createElement('style');
  style.textContent =
    '* { line-height: 1.5 !important; letter-spacing: 0.12em !important; word-spacing: 0.16em !important } p { margin-bottom: 2em !important }';
  document.head.append(style);
  return () => style.remove();
}
