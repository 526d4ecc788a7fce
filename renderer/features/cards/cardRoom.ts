import type { CardBoxes, CardLine, CardPart, Room } from '../../engine/cards/index.ts';
import { sceneWords } from './cardScene.ts';
import type { DrawnScene } from './cardStacks.ts';
import { faceLines } from './faceWidths.ts';
import type { Weight } from './faceWidths.ts';

/**
 * Room on a page in mm, by the sizes of the style: Letter is lower, A4 narrower, and the same cards stand on both. Lines are counted with the
 * sheet's own widths and a little less room than there is, so that a card is sooner divided than run over its page.
 */
const pageMm = { height: 209, width: 184 };
const mmOfPt = 25.4 / 72;
/** What a line is taken shorter than its place. */
const spareMm = 1;
const boxRowMm = 6.8;
/** More positions have their boxes on a page of their own. */
const underMost = 12;
const numberMm = 11;
/** What is said of a drawn pattern, before where its order is from. */
const positionsSaid =
  'Positions to scale, drawn as you see them, from behind: in the circle the place in the order, beside each the position.';
const valueMm = 33;
const whereMm = 46;

/** Lines that a text takes at a size, in a width. */
const linesOf = (text: string, sizePt: number, widthMm: number, weight: Weight = 'regular'): number =>
  faceLines(text, { size: sizePt * mmOfPt, width: widthMm - spareMm, weight });

const body = (text: string, widthMm: number, weight?: Weight): number =>
  linesOf(text, 10, widthMm, weight) * 13.4 * mmOfPt;
const small = (text: string, widthMm: number): number => linesOf(text, 8.5, widthMm) * 11.4 * mmOfPt;

const running = (text: string, widthMm: number): number => linesOf(text, 8, widthMm) * 10.4 * mmOfPt;
/** The same in the table of lines, which stand closer. */
const lineBody = (text: string, widthMm: number, weight?: Weight): number =>
  linesOf(text, 10, widthMm, weight) * 12.4 * mmOfPt;
const lineSmall = (text: string, widthMm: number, weight?: Weight): number =>
  linesOf(text, 8.5, widthMm, weight) * 10.8 * mmOfPt;

/** Whether the boxes stand under the lines; else on a page of their own. */
export function isUnder(boxes: CardBoxes | null): boolean {
  return boxes !== null && boxes.order.length <= underMost;
}

/** Room of a card on its page; `sceneOf` gives a step's drawings, `isLast` whether the cards end with it, which is said under it. */
export function cardRoom(sceneOf: (part: CardPart) => DrawnScene | null, isLast: (part: CardPart) => boolean): Room {
  return {
    most: pageMm.height,
    of: (parts, boxes) => {
      const drawn = parts.find(hasDrawing);
      const scene = drawn === undefined ? null : sceneOf(drawn);
      const pattern = boxes?.points != null && isUnder(boxes);
      const atSide = scene?.arrangement === 'side';
      const head = 4 + linesOf(headingOf(parts), 16, 140, 'bold') * 20 * mmOfPt;
      const notices = parts.flatMap(({ step, continued }) => (continued ? [] : step.notices));
      const warned = notices.reduce(
        (sum, { word, text }) =>
          sum + (word === 'DANGER' ? 5 : 2.2) + body(text, 140, word === 'DANGER' ? 'bold' : 'regular'),
        notices.length === 0 ? 0 : 2,
      );
      const turns = parts.some(({ step }) => step.turn !== null);
      const lines = parts.reduce((sum, part) => sum + partMm(part, parts.length > 1), 8);
      const rows = boxes === null ? 0 : isUnder(boxes) ? 9 + boxRowMm * boxes.columns.length : 5;
      const inFoot = pattern && !atSide;
      const said = saidOf(parts, boxes);
      const beside = scene !== null && isSaidBeside(parts, boxes, scene);
      const drawing = scene === null ? (turns ? 11 : 0) : sceneMm(scene, pattern, beside ? said : '');
      const text = said === '' || beside ? 0 : running(said, inFoot ? pageMm.width - 50 : pageMm.width);
      const foot = 1.2 + Math.max(text, inFoot ? 46 : 0);
      return head + warned + drawing + lines + rows + foot + 11.4 + (parts.some(isLast) ? 4.1 : 0);
    },
  };
}

/** Beside a drawing; the words of which way to turn take two lines there. */
const sideMm = pageMm.width - 114.4;
const patternMm = 46;
/** What of the line beneath a drawing the way to turn leaves its words. */
const captionMm = pageMm.width - 83;

function sceneMm(scene: DrawnScene, pattern: boolean, said: string): number {
  const words = sceneWords(scene);
  if (scene.arrangement !== 'side') return scene.heightMm + Math.max(11, small(words, captionMm)) + 1;
  if (pattern) return Math.max(scene.heightMm, 15 + patternMm) + small(words, pageMm.width) + 1.4;
  const notes = said === '' ? 0 : running(said, sideMm) + 2;
  return Math.max(scene.heightMm - 0.6, 15 + small(words, sideMm) + notes) + 0.4;
}

/** What is said of a card's order and of where its figures come from. */
function saidOf(parts: readonly CardPart[], boxes: CardBoxes | null): string {
  const ofOrder = boxes === null || !isUnder(boxes) ? [] : [boxes.orderFrom, boxes.orderFault];
  return [
    ...ofOrder.filter((words) => words != null),
    ...(boxes?.points != null && isUnder(boxes) ? [positionsSaid] : []),
    ...notesOf(parts),
  ].join(' · ');
}

/** Whether that stands beside the drawing, where the pattern leaves it the room; else at the card's foot. */
export function isSaidBeside(parts: readonly CardPart[], boxes: CardBoxes | null, scene: DrawnScene): boolean {
  if (scene.arrangement !== 'side' || (boxes?.points != null && isUnder(boxes))) return false;
  const said = saidOf(parts, boxes);
  return said !== '' && sceneMm(scene, false, said) < sceneMm(scene, false, '') + running(said, pageMm.width);
}

function partMm({ step, lines, continued }: CardPart, named: boolean): number {
  const widthMm = pageMm.width;
  const reach = widthMm - numberMm - whereMm - valueMm - 2.8;
  const name =
    named || step.onlyIf !== null || continued
      ? 1.9 + lineBody(`${step.number} ${step.name} ${step.onlyIf ?? ''} 000 min`, widthMm - 3, 'bold')
      : 0;
  const closest = step.closest.reduce(
    (sum, { stack, fails }) =>
      sum +
      1.6 +
      lineSmall(
        `Closest fit ${stack.join(' + ')}: ${fails.map(({ check, have, need }) => `${check}: has ${have}, needs ${need}`).join('; ')}`,
        // Codes stand in a face of their own, each letter as wide as a wide one.
        (widthMm - 4) * 0.8,
        'bold',
      ),
    0,
  );
  return lines.reduce((sum, line) => sum + lineMm(line, reach), name + closest);
}

function lineMm({ kind, reach, where, count, value }: CardLine, reachMm: number): number {
  const left = Math.max(
    lineBody(reach, reachMm, kind === 'stop' ? 'bold' : 'regular'),
    lineSmall(`${where} · ${count}`, whereMm - 2.8) + 0.4,
  );
  const right =
    value.kind === 'set'
      ? 21 * mmOfPt + lineSmall(`${value.unit} ${value.beside}`, valueMm - 2.8)
      : lineBody(value.text, valueMm - 2.8, 'bold');
  return Math.max(left, right) + 1.7;
}

/** Where a step goes on with another card, its stack is drawn on the first. */
export function hasDrawing({ step, continued }: CardPart): boolean {
  return step.stack.length > 0 && !continued;
}

/** What a card is headed by: its step, or how many there are and which. */
export function headingOf(parts: readonly CardPart[]): string {
  const [first] = parts;
  if (first === undefined) return '';
  if (parts.length === 1) return first.step.name;
  const all = parts.map(({ step }) => step.name).join('; ');
  return all.length <= 80 ? all : `${first.step.name}, and ${parts.length - 1} more`;
}

/** Where the card's figures come from, each sentence once; by step where there are several. */
export function notesOf(parts: readonly CardPart[]): string[] {
  const ending = parts.filter(({ ends }) => ends);
  const bySentence = new Map<string, number[]>();
  for (const { step } of ending)
    for (const note of step.notes) bySentence.set(note, [...(bySentence.get(note) ?? []), step.number]);
  return [...bySentence].map(([note, numbers]) => (ending.length > 1 ? `Step ${numbers.join(', ')}: ${note}` : note));
}
