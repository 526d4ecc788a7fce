import type { Card, CardBoxes, CardLine, CardPart, CardStep } from './card.ts';

/** A longer list is lost count of. */
export const linesMost = 10;
/** Columns of boxes that stand beside each other on a page. */
const columnsMost = 5;

export interface Room {
  /** What a card may take up, in any measure. */
  most: number;
  /** What these parts take up on one card. */
  of: (parts: readonly CardPart[], boxes: CardBoxes | null) => number;
}

/**
 * The steps of one role, in order, on cards: at most ten lines and one drawing each, and no more than a page has room for. A step that
 * needs more than a card goes on with the next.
 */
export function chunksOf(role: string, steps: readonly CardStep[], room: Room): Card[] {
  const cards: Card[] = [];
  let parts: CardPart[] = [];
  const close = (): void => {
    if (parts.length > 0) cards.push(cardOf(role, parts));
    parts = [];
  };
  for (const step of steps) {
    let rest = step.lines;
    let continued = false;
    while (rest.length > 0 || !continued) {
      const fits = mostLines(step, rest, continued, parts, room);
      if (fits === 0 && parts.length > 0) {
        close();
        continue;
      }
      const count = Math.max(1, fits);
      // Part of a step is begun on a card of its own, so that it is seen as one.
      if (count < rest.length && parts.length > 0) {
        close();
        continue;
      }
      parts = [...parts, partOf(step, rest.slice(0, count), continued, count >= rest.length)];
      rest = rest.slice(count);
      continued = true;
      if (rest.length === 0) break;
      close();
    }
  }
  close();
  return cards;
}

function partOf(step: CardStep, lines: CardStep['lines'], continued: boolean, ends: boolean): CardPart {
  return { step, lines, continued, ends };
}

/** How many of a step's lines can join what is on the card. */
function mostLines(
  step: CardStep,
  rest: CardStep['lines'],
  continued: boolean,
  parts: readonly CardPart[],
  room: Room,
): number {
  if (!goesWith(step, parts)) return 0;
  const free = linesMost - lineCount(parts);
  for (let count = Math.min(free, rest.length); count > 0; count -= 1) {
    const all = [...parts, partOf(step, rest.slice(0, count), continued, count >= rest.length)];
    if (room.of(all, boxesOf(all.filter(isWritten))) <= room.most) return count;
  }
  return 0;
}

const lineCount = (parts: readonly CardPart[]): number => parts.reduce((sum, { lines }) => sum + lines.length, 0);

/** One drawing and one pattern to a card; a step that is done only if another fails stands by itself. */
function goesWith(step: CardStep, parts: readonly CardPart[]): boolean {
  return parts.every(({ step: other }) => {
    if ((step.onlyIf === null) !== (other.onlyIf === null)) return false;
    if (step.stack.length > 0 && other.stack.length > 0 && drawingKey(step) !== drawingKey(other)) return false;
    const [own, others] = [step.boxes, other.boxes];
    if (own === null || others === null) return true;
    return boxesKey(own) === boxesKey(others) && own.columns.length + others.columns.length <= columnsMost;
  });
}

/** Two steps of one key have one drawing. */
function drawingKey({ stack, hold, turn, site }: CardStep): string {
  return JSON.stringify([stack, hold, turn, site]);
}

const writing: ReadonlySet<CardLine['kind']> = new Set(['run', 'pass', 'final', 'read', 'loosen']);

/** The boxes of a divided step stand with the last of its lines of which a value is written. */
function isWritten({ step, lines }: CardPart): boolean {
  const last = step.lines.findLast(({ kind }) => writing.has(kind));
  return last !== undefined && lines.includes(last);
}

const boxesKey = ({ order, points }: CardBoxes): string => JSON.stringify([order, points]);

function boxesOf(parts: readonly CardPart[]): CardBoxes | null {
  const steps = [...new Set(parts.map(({ step }) => step))];
  const all = steps.flatMap(({ boxes }) => (boxes === null ? [] : [boxes]));
  const [first] = all;
  return first === undefined ? null : { ...first, columns: all.flatMap(({ columns }) => columns) };
}

function cardOf(role: string, parts: CardPart[]): Card {
  const boxes = boxesOf(parts.filter(isWritten));
  return {
    role,
    parts,
    lineCount: lineCount(parts),
    minutes: parts.reduce((sum, { step, continued }) => sum + (continued ? 0 : step.minutes), 0),
    boxes,
  };
}
