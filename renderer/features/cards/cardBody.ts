import type {
  BoxColumn,
  Card,
  CardBoxes,
  CardLine,
  CardNotice,
  CardPart,
  CardValue,
} from '../../engine/cards/index.ts';
import { showNumber } from '../../engine/units/index.ts';
import { numbersText } from '../steps/words.ts';
import { html, type Markup, type Part } from '../manifest/html.ts';
import { typed, unbroken } from '../manifest/manifestBody.ts';
import { hasDrawing, headingOf, isSaidBeside, isUnder, notesOf } from './cardRoom.ts';
import { sceneMarkup, turnRow } from './cardScene.ts';
import type { DrawnScene } from './cardStacks.ts';
import { patternDrawing } from './drawings.ts';

export interface CardFrame {
  outing: string;
  /** The stacks of a part, drawn; null where they cannot be. */
  sceneOf: (part: CardPart) => DrawnScene | null;
  /** The caution, on the first page of the document. */
  first: Markup | null;
  /** On the last card: that it is, and how many there are. */
  end: string | null;
}

/** One card: one page. */
export function cardBody(card: Card, { outing, sceneOf, first, end }: CardFrame): Markup {
  const { parts, boxes } = card;
  const drawn = parts.find(hasDrawing);
  const turned = drawn ?? parts.find(({ step }) => step.turn !== null);
  const scene = drawn === undefined ? null : sceneOf(drawn);
  const under = boxes !== null && isUnder(boxes) ? boxes : null;
  const pattern = under?.points == null ? null : patternDrawing(under.points, orderDrawn(under), 'card');
  const atSide = scene?.arrangement === 'side';
  const steps = numbersText(parts.map(({ step }) => step.number));
  const notes = html`<div class="small notes">
    ${under === null ? null : orderNote(under)}${notesOf(parts).map((text) => html`<p>${typed(text)}</p> `)}
  </div>`;
  const beside = scene !== null && isSaidBeside(parts, boxes, scene);
  return html`<section class="card">
    <div class="top">
      <div>
        <p class="small">
          Step card · ${typed(card.role)} · ${typed(outing)} · ${parts.length === 1 ? 'step' : 'steps'} ${steps}
        </p>
        <h1>${typed(headingOf(parts))}</h1>
      </div>
      <p class="small time">time for these steps<b>${timeText(card)}</b></p>
    </div>
    ${first}${notices(parts)}${scene === null ? turnRow(turned) : sceneMarkup(scene, { turned, pattern: atSide ? pattern : null, notes: beside ? notes : null })}
    ${lineTable(parts)}${
      boxes === null
        ? null
        : under === null
          ? html`<p class="small">The boxes for ${boxes.order.length} positions stand on the next pages.</p>`
          : wideBoxes(under)
    }
    <div class="foot">${atSide ? null : pattern}${beside ? null : notes}</div>
    ${doneRow(card, steps)}${end === null ? null : html`<p class="small">${end}</p>`}
  </section> `;
}

function timeText({ parts, minutes }: Card): string {
  if (minutes > 0) return `${showNumber(minutes)} min`;
  return parts.every(({ continued }) => continued) ? 'with the card before' : 'not given';
}

/** Before anything of the steps: cautions, the gravest first, then watch-outs. */
function notices(parts: readonly CardPart[]): Markup | null {
  const several = parts.length > 1;
  const all = parts.flatMap(({ step, continued }) =>
    continued ? [] : step.notices.map((notice) => ({ notice, step: step.number })),
  );
  if (all.length === 0) return null;
  const rank = ({ word }: CardNotice): number =>
    ['DANGER', 'WARNING', 'CAUTION', 'NOTICE', 'Not used', 'Watch-out'].indexOf(word);
  const sorted = all.toSorted((a, b) => rank(a.notice) - rank(b.notice) || a.step - b.step);
  return html`<div class="notices">
    ${sorted.map(
      ({ notice: { word, text }, step }) =>
        html`<div class="notice word-${word.toLowerCase().replace(' ', '-')}">
          <span class="word"
            >${word === 'NOTICE' || word === 'Not used' || word === 'Watch-out' ? null : alertSign()}${word}</span
          ><span>${several ? `Before step ${step}: ` : ''}${typed(text)}</span>
        </div>`,
    )}
  </div> `;
}

/** The alert sign of what can hurt people; NOTICE has none. */
function alertSign(): Markup {
  return html`<svg viewBox="0 0 24 22" role="img" aria-label="Can hurt people">
    <path d="M12 1.5L23 20.5H1Z" fill="#fff" stroke="#000" stroke-width="2" stroke-linejoin="round" />
    <path d="M12 7.5V14" stroke="#000" stroke-width="2.6" />
    <circle cx="12" cy="17.2" r="1.5" fill="#000" />
  </svg>`;
}

function lineTable(parts: readonly CardPart[]): Markup {
  return html`<table class="do">
    <colgroup>
      <col class="no" />
      <col />
      <col class="where" />
      <col class="value" />
    </colgroup>
    <thead>
      <tr>
        <th scope="col" class="no">Step</th>
        <th scope="col">State to reach</th>
        <th scope="col">Where; how many</th>
        <th scope="col" class="num">Set or keep to</th>
      </tr>
    </thead>
    ${parts.map((part) => partRows(part, parts.length > 1))}
  </table> `;
}

function partRows({ step, lines, continued }: CardPart, several: boolean): Markup {
  const minutes = step.minutes === 0 ? '' : `, ${showNumber(step.minutes)} min`;
  const named = several || step.onlyIf !== null || continued;
  return html`<tbody>
    ${
      named
        ? html`<tr class="step">
            <th scope="rowgroup" colspan="4">
              ${step.number} ·
              ${typed(step.name)}${several ? minutes : ''}${step.onlyIf === null ? '' : `, ${step.onlyIf}`}${continued ? ', continued' : ''}
            </th>
          </tr>`
        : null
    }${lines.map((line, index) => lineRow(line, index === 0 ? step.number : null))}${step.closest.map(
      ({ stack, fails }) =>
        html`<tr class="closest">
          <td colspan="4" class="small">
            Closest fit, which fails: <span class="code">${typed(stack.join(' + '))}</span>:
            ${fails.map(({ check, have, need }) => `${check}: has ${have}, needs ${need}`).join('; ')}
          </td>
        </tr>`,
    )}
  </tbody>`;
}

function lineRow({ kind, reach, where, count, value }: CardLine, number: number | null): Markup {
  return html`<tr class="line ${kind}">
    <th scope="row" class="no">${kind === 'stop' ? 'Stop' : (number ?? '')}</th>
    <td>
      <span class="reach"
        >${typed(kind === 'stop' ? reach.replace(/^Stop: (.)/, (_, letter: string) => letter.toUpperCase()) : reach)}</span
      >
    </td>
    <td class="small where"><bdi>${rangesWhole(where)}</bdi> · ${count}</td>
    <td class="value">${valuePart(value)}</td>
  </tr> `;
}

/** "1-3" is not torn at its hyphen. */
function rangesWhole(text: string): Part {
  return text.split(/(\d+-\d+)/).map((part, at) => (at % 2 === 1 ? html`<span class="whole">${part}</span>` : part));
}

function valuePart(value: CardValue): Part {
  if (value.kind === 'words') return unbroken(value.text);
  if (value.kind === 'limit') return html`<span class="limit">${unbroken(value.text)}</span>`;
  return html`<span class="set">${value.number}</span><br /><span class="small">${value.unit} ${value.beside}</span>`;
}

export function orderNote({ orderFrom, orderFault, points, mirrored }: CardBoxes): Markup | null {
  const fault = orderFault === null ? null : `The interface’s order ${orderFault}: not used.`;
  if (points === null) return orderFrom === null && fault === null ? null : html`<p>${orderFrom ?? fault}</p>`;
  const seen = mirrored ? 'drawn as you see them, from behind' : 'seen from the heads';
  const inCircle = orderFault === null ? 'in the circle the place in the order, ' : '';
  return html`<p>Positions to scale, ${seen}: ${inCircle}beside each the position. ${orderFrom ?? fault}</p>`;
}

/** Places in an order that is not followed are drawn as none. */
export const orderDrawn = ({ order, orderFault }: CardBoxes): readonly string[] => (orderFault === null ? order : []);

const isOrdered = ({ orderFrom }: CardBoxes): boolean => orderFrom !== null;

/** Of a step where several have boxes on one card. */
function columnName({ step, name, unit }: BoxColumn, columns: readonly BoxColumn[]): string {
  const several = new Set(columns.map((column) => column.step)).size > 1;
  return `${several ? `Step ${step} ` : ''}${name}${unit === '' ? '' : `, ${unit}`}`;
}

/** Boxes to write in, a column for each position: the value read, never a tick. */
function wideBoxes(boxes: CardBoxes): Markup {
  const { columns, order } = boxes;
  return html`<table class="boxes wide">
    <colgroup>
      <col style="width:34mm" />
      ${order.map(() => html`<col />`)}
    </colgroup>
    <thead>
      <tr>
        <th scope="col" class="name">${isOrdered(boxes) ? 'In this order, at' : 'At position'}</th>
        ${order.map((position, index) => html`<th scope="col">${isOrdered(boxes) ? html`<span class="small">${index + 1}.</span> ` : null}${typed(position)}</th>`)}
      </tr>
    </thead>
    <tbody>
      ${columns.map(
        (column) =>
          html`<tr>
            <th scope="row" class="name">${columnName(column, columns)}</th>
            ${order.map(() => html`<td></td>`)}
          </tr>`,
      )}
    </tbody>
  </table> `;
}

/** The same a row for each position, where they are many. */
export function boxTable(boxes: CardBoxes, order: readonly string[], from: number): Markup {
  const { columns } = boxes;
  return html`<table class="boxes">
    <colgroup>
      <col style="width:12mm" />
      <col style="width:14mm" />
      ${columns.map(() => html`<col />`)}
    </colgroup>
    <thead>
      <tr>
        <th scope="col">${isOrdered(boxes) ? 'Order' : 'No'}</th>
        <th scope="col">At</th>
        ${columns.map((column) => html`<th scope="col">${columnName(column, columns)}</th>`)}
      </tr>
    </thead>
    <tbody>
      ${order.map(
        (position, index) =>
          html`<tr>
            <th scope="row">${from + index}</th>
            <td>${typed(position)}</td>
            ${columns.map(() => html`<td></td>`)}
          </tr>`,
      )}
    </tbody>
  </table> `;
}

/** Done is said by whoever did it, with name and time; never by the last line alone. */
function doneRow({ parts, lineCount }: Card, steps: string): Markup {
  const ends = parts.every(({ ends: all }) => all);
  const lines = lineCount === 1 ? 'its 1 line' : `all ${lineCount} lines`;
  const what = `${parts.length === 1 ? 'Step' : 'Steps'} ${steps}`;
  return html`<p class="done">
    <span>${ends ? `${what} done, ${lines}:` : `${what}, ${lines} done, goes on:`}</span><span>name</span
    ><span class="write"></span><span>time</span><span class="write when"></span>
  </p> `;
}
