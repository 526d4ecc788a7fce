import type { CardBoxes, CardLine, CardPart, Room } from '../../engine/cards/index.ts';
import { textWidthPx } from '../../components/StackDrawing/labels.ts';
import { sceneWords } from './cardScene.ts';
import type { DrawnScene } from './cardStacks.ts';

/**
 * Room on a page in mm, by the sizes of the style: Letter is lower, A4 narrower, and the same cards stand on both. Widths of texts are taken on
 * the wide side, so that a card is sooner divided than run over its page.
 */
const pageMm = { height: 209, width: 184 };
const mmOfPt = 25.4 / 72;
/** Letters as the sheet's face has them, against the wide side of each. */
const ofWideSide = 0.86;
/** In a text of many lines wide and narrow letters make up for each other. */
const inRunningText = 0.81;
const boxRowMm = 7.4;
/** More positions have their boxes on a page of their own. */
const underMost = 12;
const numberMm = 11;
/** What is said of a drawn pattern, before where its order is from. */
const positionsSaid =
  'Positions to scale, drawn as you see them, from behind: in the circle the place in the order, beside each the position.';
const valueMm = 36;

/** Lines that a text takes at a size, in a width. */
function linesOf(text: string, sizePt: number, widthMm: number, share = ofWideSide): number {
  // Words break a few letters before the edge.
  const whole = textWidthPx(text, sizePt * mmOfPt) * share;
  return Math.max(1, Math.ceil(whole / (widthMm - 4)));
}

const body = (text: string, widthMm: number): number => linesOf(text, 10, widthMm) * 13.4 * mmOfPt;
const small = (text: string, widthMm: number): number => linesOf(text, 8.5, widthMm) * 11.4 * mmOfPt;

const running = (text: string, widthMm: number): number => linesOf(text, 8, widthMm, inRunningText) * 10.4 * mmOfPt;
/** The same in the table of lines, which stand closer. */
const lineBody = (text: string, widthMm: number): number => linesOf(text, 10, widthMm) * 12.4 * mmOfPt;
const lineSmall = (text: string, widthMm: number): number => linesOf(text, 8.5, widthMm) * 10.8 * mmOfPt;

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
      const head = 4 + linesOf(headingOf(parts), 16, 140) * 20 * mmOfPt;
      const notices = parts.flatMap(({ step, continued }) => (continued ? [] : step.notices));
      const warned = notices.reduce(
        (sum, { word, text }) => sum + (word === 'DANGER' ? 5 : 2.2) + body(text, 140),
        notices.length === 0 ? 0 : 2,
      );
      const turns = parts.some(({ step }) => step.turn !== null);
      const drawing = scene === null ? (turns ? 11 : 0) : sceneMm(scene, pattern);
      const lines = parts.reduce((sum, part) => sum + partMm(part, parts.length > 1), 8);
      const rows = boxes === null ? 0 : isUnder(boxes) ? 9 + boxRowMm * boxes.columns.length : 5;
      const notes = notesOf(parts);
      const inFoot = pattern && !atSide;
      const said = [
        ...[boxes?.orderFrom, boxes?.orderFault].flatMap((words) => (words == null || !isUnder(boxes) ? [] : [words])),
        ...(pattern ? [positionsSaid] : []),
        ...notes,
      ];
      const text = said.length === 0 ? 0 : running(said.join(' · '), inFoot ? pageMm.width - 50 : pageMm.width);
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

function sceneMm(scene: DrawnScene, pattern: boolean): number {
  const words = sceneWords(scene);
  if (scene.arrangement !== 'side') return scene.heightMm + Math.max(11, small(words, captionMm)) + 1;
  if (pattern) return Math.max(scene.heightMm, 15 + patternMm) + small(words, pageMm.width) + 1.4;
  return Math.max(scene.heightMm - 0.6, 15 + small(words, sideMm)) + 0.4;
}

function partMm({ step, lines, continued }: CardPart, named: boolean): number {
  const widthMm = pageMm.width;
  const reach = widthMm - numberMm - valueMm - 2.8;
  const name =
    named || step.onlyIf !== null || continued
      ? 1.9 + lineBody(`${step.number} ${step.name} ${step.onlyIf ?? ''} 000 min`, widthMm - 3)
      : 0;
  const closest = step.closest.reduce(
    (sum, { stack, fails }) =>
      sum +
      1.6 +
      lineSmall(
        `Closest fit ${stack.join(' + ')}: ${fails.map(({ check, have, need }) => `${check}: has ${have}, needs ${need}`).join('; ')}`,
        widthMm - 4,
      ),
    0,
  );
  return lines.reduce((sum, line) => sum + lineMm(line, reach), name + closest);
}

function lineMm({ reach, where, count, value }: CardLine, reachMm: number): number {
  const left = lineBody(reach, reachMm) + lineSmall(`${where} · ${count}`, reachMm);
  const right =
    value.kind === 'set'
      ? 21 * mmOfPt + lineSmall(`${value.unit} ${value.beside}`, valueMm - 2.8)
      : lineBody(value.text, valueMm - 2.8);
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
