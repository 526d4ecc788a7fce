import type { BagResult } from '../../../shared-types/bag.ts';
import type { DocumentToPrint } from '../../../shared-types/host.ts';
import { cardsOf } from '../../engine/cards/index.ts';
import type { Card, CardBoxes, CardPart, Room, StepFacts } from '../../engine/cards/index.ts';
import type { ResolvedPlan } from '../../engine/plan/resolved.ts';
import type { UnitsShown } from '../../engine/units/index.ts';
import { contentHash } from '../manifest/contentHash.ts';
import { html, plainText } from '../manifest/html.ts';
import type { Markup, Part } from '../manifest/html.ts';
import { knownBlock } from '../manifest/knownBlock.ts';
import { caution, typed } from '../manifest/manifestBody.ts';
import { unitsNote } from '../manifest/manifestOf.ts';
import { marginBoxes, marginName, spoken as spokenTime } from '../manifest/pageFurniture.ts';
import { printedPage } from '../manifest/printedPage.ts';
import type { PrintFace } from '../manifest/printFonts.ts';
import { contentCell, revisionCell } from '../manifest/printedRevision.ts';
import type { PrintedRevision } from '../manifest/printedRevision.ts';
import type { PrintedHead } from '../manifest/useJournalHead.ts';
import { sheetStyle } from '../manifest/sheetStyle.ts';
import { countOf } from '../steps/words.ts';
import { boxTable, cardBody, orderDrawn, orderNote } from './cardBody.ts';
import { cardRoom, isUnder } from './cardRoom.ts';
import { cardsStyle } from './cardsStyle.ts';
import { sceneOf } from './cardStacks.ts';
import { patternDrawing } from './drawings.ts';

export interface CardsRequest {
  plan: ResolvedPlan;
  /** The answer to this very state of the task. */
  result: BagResult;
  facts: ReadonlyMap<string, StepFacts>;
  outing: string;
  /** Null: of every role. */
  role: string | null;
  units: UnitsShown;
  fileName: string;
}

export interface CardsPrint extends CardsRequest {
  paper: DocumentToPrint['paper'];
  /** Of the data, ISO with its offset from UTC. */
  dataTime: string;
  appVersion: string;
  person: string;
  fonts: readonly PrintFace[];
  journal?: PrintedHead;
  /** What earlier outings say, in sentences: a page of its own before the cards. */
  known?: readonly string[] | undefined;
  /** The frozen manifest that plan, answer and facts are of; absent for the open plan. */
  frozen?: PrintedRevision | undefined;
}

/** Between the margins of A4. */
const pageMm = 184;

/** What of a page each card of an outing takes up. */
function roomOfCards(request: CardsRequest): Room {
  const { plan, outing } = request;
  const lastOfRole = new Map(plan.steps.filter((step) => step.outing === outing).map(({ role, id }) => [role, id]));
  const last = new Set(lastOfRole.values());
  return cardRoom(
    eachOnce((part) => sceneOf(request, part)),
    ({ step, ends }) => ends && last.has(step.id),
  );
}

/** A stack is laid out once for each step. */
function eachOnce<T>(of: (part: CardPart) => T): (part: CardPart) => T {
  const known = new Map<string, T>();
  return (part) => {
    const { id } = part.step;
    if (!known.has(id)) known.set(id, of(part));
    return known.get(id) as T;
  };
}

/** The cards of an outing: what is printed, before it is laid out. */
export function cardsAsked(request: CardsRequest): Card[] {
  return cardsOf({ ...request, room: roomOfCards(request) });
}

const rowsMost = 24;

/** Boxes that have no room beside their lines, on pages of their own. */
function boxPages(card: Card, outing: string): Markup[] {
  const { boxes } = card;
  if (boxes === null || isUnder(boxes)) return [];
  const groups = Math.max(1, Math.floor((pageMm + 5) / (31 + 17 * boxes.columns.length)));
  const pages: Markup[] = [patternPage(card, boxes, outing)].filter((page) => page !== null);
  for (let from = 0; from < boxes.order.length; from += rowsMost * groups)
    pages.push(boxPage(card, boxes, { from, groups, outing }));
  return pages;
}

/** Where many positions lie, with the order in which they are turned. */
function patternPage(card: Card, boxes: CardBoxes, outing: string): Markup | null {
  const { points } = boxes;
  const drawing = points === null ? null : patternDrawing(points, orderDrawn(boxes), 'page');
  if (drawing === null) return null;
  return html`<section class="card">
    <p class="small">${pageLine(card, outing)}</p>
    <h1>${boxes.orderFault === null ? 'Positions in their order' : 'Positions'}</h1>
    ${drawing}
    <div class="small">${orderNote(boxes)}</div>
  </section> `;
}

function pageLine({ role, parts }: Card, outing: string): Markup {
  return html`Step card · ${typed(role)} · ${typed(outing)} · step ${parts.map(({ step }) => step.number).join(', ')}`;
}

function boxPage(card: Card, boxes: CardBoxes, at: { from: number; groups: number; outing: string }): Markup {
  const tables: Part[] = [];
  for (let group = 0; group < at.groups; group += 1) {
    const from = at.from + group * rowsMost;
    const order = boxes.order.slice(from, from + rowsMost);
    if (order.length > 0) tables.push(html`<div>${boxTable(boxes, order, from + 1)}</div>`);
  }
  return html`<section class="card">
    <p class="small">${pageLine(card, at.outing)}</p>
    <h1>Values, positions in order from ${at.from + 1}</h1>
    <div class="groups" style="grid-template-columns:repeat(${at.groups},1fr)">${tables}</div>
    <p class="small">The value read is written, not a tick. ${boxes.orderFrom}</p>
    ${boxes.orderFault === null ? null : html`<p class="small">The interface’s order ${boxes.orderFault}: not used.</p>`}
  </section> `;
}

function endText(cards: readonly Card[]): string {
  const lines = cards.reduce((sum, { lineCount }) => sum + lineCount, 0);
  return `End of cards: ${countOf(cards.length, 'card')}, ${countOf(lines, 'line')}.`;
}

/** What the cards' content is known by, on paper. */
function cardsHash(cards: readonly Card[], { outing, units }: CardsRequest, known: readonly string[]): Promise<string> {
  return contentHash(JSON.stringify({ cards, outing, units, ...(known.length === 0 ? {} : { known }) }));
}

/** The cards as one document to print, a page for each: the same request, the same bytes. */
export async function cardsDocument(request: CardsPrint): Promise<DocumentToPrint> {
  const { plan, outing: outingId, role, units, fileName, paper, dataTime, appVersion, person, fonts, frozen } = request;
  const cards = cardsAsked(request);
  const hash = contentCell(frozen, await cardsHash(cards, request, request.known ?? []));
  const { task } = plan.source;
  const outing = plan.outings.find(({ id }) => id === outingId)?.name ?? outingId;
  const taskName = task === undefined ? fileName : `${task.id}, ${task.name}`;
  const sheet = role === null ? 'Step cards' : `Step cards, ${role}`;
  const title = `${plainText(sheet)}: ${plainText(`${task?.name ?? fileName}, ${outing}`)}`;
  const furniture = marginBoxes({
    paper,
    journal: request.journal,
    left: [
      `Task: ${marginName(taskName)}`,
      `Sheet: ${marginName(sheet)}`,
      `Outing: ${marginName(outing)}`,
      ...(frozen !== undefined
        ? [`Frozen by ${marginName(frozen.by.name)}`]
        : person === ''
          ? []
          : [`Prepared by ${marginName(person)}`]),
    ],
    middle: [
      `Revision: ${revisionCell(frozen)}`,
      `Data of ${spokenTime(dataTime)}`,
      `Bagwright ${appVersion}`,
      `Content ${hash}`,
    ],
    right: [unitsNote(units), `Uncontrolled when printed unless checked against content ${hash}.`],
  });
  const scene = eachOnce((part) => sceneOf(request, part));
  const { known = [] } = request;
  const before =
    known.length === 0
      ? []
      : [
          html`<section class="card">
            <p class="small">Before the cards · ${typed(outing)}</p>
            ${caution()}${knownBlock(known, request.journal)}
          </section>`,
        ];
  const pages = cards.flatMap((card, index) => [
    cardBody(card, {
      outing,
      sceneOf: scene,
      first: index === 0 && known.length === 0 ? caution() : null,
      end: index === cards.length - 1 ? endText(cards) : null,
    }),
    ...boxPages(card, outing),
  ]);
  const none = html`<section class="card">
    <h1>No cards</h1>
    ${caution()}
    <p>${typed(role ?? 'No role')} has no step on ${typed(outing)}.</p>
  </section>`;
  const body = html`${before}${pages.length === 0 ? none : pages}`;
  return printedPage({ title, paper, dataTime, fonts, style: `${furniture}${sheetStyle}${cardsStyle}`, body });
}
