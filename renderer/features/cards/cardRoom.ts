import type { CardBoxes, CardLine, CardPart, Room } from '../../engine/cards/index.ts';
import { textWidthPx } from '../../components/StackDrawing/labels.ts';

/**
 * Room on a page in mm, by the sizes of the style: Letter is lower, A4 narrower, and the same cards stand on both. Widths of texts are taken on
 * the wide side, so that a card is sooner divided than run over its page.
 */
const pageMm = { height: 207, width: 184 };
const mmOfPt = 25.4 / 72;
/** Letters as the sheet's face has them, against the wide side of each. */
const ofWideSide = 0.86;
const boxRowMm = 7.4;
/** More positions have their boxes on a page of their own. */
const underMost = 12;
const numberMm = 11;
const valueMm = 36;

/** Lines that a text takes at a size, in a width. */
function linesOf(text: string, sizePt: number, widthMm: number): number {
  // Words break a few letters before the edge.
  const whole = textWidthPx(text, sizePt * mmOfPt) * ofWideSide;
  return Math.max(1, Math.ceil(whole / (widthMm - 4)));
}

const body = (text: string, widthMm: number): number => linesOf(text, 10, widthMm) * 13.4 * mmOfPt;
const small = (text: string, widthMm: number): number => linesOf(text, 8.5, widthMm) * 11.4 * mmOfPt;

/** Whether the boxes stand under the lines; else on a page of their own. */
export function isUnder(boxes: CardBoxes | null): boolean {
  return boxes !== null && boxes.order.length <= underMost;
}

/** Room of a card on its page; `drawingMm` is the height of a step's drawing. */
export function cardRoom(drawingMm: (part: CardPart) => number): Room {
  return {
    most: pageMm.height,
    of: (parts, boxes) => {
      const drawn = parts.find(hasDrawing);
      const turns = parts.some(({ step }) => step.turn !== null);
      const head = 4 + linesOf(headingOf(parts), 16, 140) * 20 * mmOfPt;
      const notices = parts.flatMap(({ step, continued }) => (continued ? [] : step.notices));
      const warned = notices.reduce((sum, { text }) => sum + 2.2 + body(text, 140), notices.length === 0 ? 0 : 2);
      const drawing = drawn === undefined ? (turns ? 12 : 0) : drawingMm(drawn) + 14.5;
      const lines = parts.reduce((sum, part) => sum + partMm(part, parts.length > 1), 8);
      const rows = boxes === null ? 0 : isUnder(boxes) ? 9 + boxRowMm * boxes.columns.length : 5;
      const notes = notesOf(parts);
      const pattern = boxes?.points != null && isUnder(boxes);
      const beside = pattern ? pageMm.width - 50 : pageMm.width;
      const said = [
        ...[boxes?.orderFrom, boxes?.orderFault].flatMap((words) => (words == null || !isUnder(boxes) ? [] : [words])),
        ...notes,
      ];
      const text = said.reduce((sum, one) => sum + small(one, beside), 3);
      const foot = Math.max(text, pattern ? 49 : 0);
      return head + warned + drawing + lines + rows + foot + 13;
    },
  };
}

function partMm({ step, lines, continued }: CardPart, named: boolean): number {
  const widthMm = pageMm.width;
  const reach = widthMm - numberMm - valueMm - 2.8;
  const name =
    named || step.onlyIf !== null || continued
      ? 2.4 + body(`${step.number} ${step.name} ${step.onlyIf ?? ''} 000 min`, widthMm - 3)
      : 0;
  const closest = step.closest.reduce(
    (sum, { stack, fails }) =>
      sum +
      2.2 +
      small(
        `Closest fit ${stack.join(' + ')}: ${fails.map(({ check, have, need }) => `${check}: has ${have}, needs ${need}`).join('; ')}`,
        widthMm - 4,
      ),
    0,
  );
  return lines.reduce((sum, line) => sum + lineMm(line, reach), name + closest);
}

function lineMm({ reach, where, count, value }: CardLine, reachMm: number): number {
  const left = body(reach, reachMm) + small(`${where} · ${count}`, reachMm);
  const right =
    value.kind === 'set'
      ? 21 * mmOfPt + small(`${value.unit} ${value.beside}`, valueMm - 2.8)
      : body(value.text, valueMm - 2.8);
  return Math.max(left, right) + 2.3;
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
