import type { Discrepancy } from '../../../shared-types/records/revision.ts';
import type { Frozen } from '../../engine/frozen/index.ts';
import { amountText, isSome, placeName, plannedToStay, shop } from '../../engine/return/index.ts';
import type { OutingThatLeft, ReturnLine } from '../../engine/return/index.ts';
import { html } from '../manifest/html.ts';
import type { Part } from '../manifest/html.ts';
import { typed } from '../manifest/manifestBody.ts';
import { spoken } from '../manifest/pageFurniture.ts';
import type { PrintedList } from '../record/recordPrint.ts';
import { countOf } from '../steps/words.ts';
import { totalsOf, totalsText } from './returnWords.ts';

/** The return of an outing as it is printed: what went, what came, what stays, what is open, with where it was seen last. */
export function returnList(x: {
  went: OutingThatLeft;
  frozen: Frozen;
  discrepancies: readonly Discrepancy[];
  task: string;
}): PrintedList {
  const { went, frozen, discrepancies, task } = x;
  const { state, outing, revision } = went;
  const { plan } = frozen;
  const totals = totalsOf(state.lines);
  const stays = plannedToStay(plan, outing);
  const bags = [...new Set(state.lines.map(({ bag }) => bag))];
  const own = discrepancies.filter((one) => one.revision === revision.id && one.outing === outing);
  const { closed, issued } = state;
  return {
    sheet: 'Return list',
    heading: task,
    beneath: plan.outings.find(({ id }) => id === outing)?.name ?? outing,
    said: [
      html`<b>${totals.back} of ${countOf(totals.out, 'piece')} back</b>, ${totalsText(totals)}.`,
      issued === null
        ? null
        : html`Left ${spoken(issued.at)}, ${typed(issued.by.name)}, ${typed(issued.by.role)}; manifest revision
          ${revision.number}.`,
      closed === null
        ? html`<b>The return is not closed.</b> What is open may still come.`
        : html`Closed ${spoken(closed.at)} by ${typed(closed.by.name)},
          ${typed(closed.by.role)}${closed.second === null ? null : html`, with ${typed(closed.second.name)}, ${typed(closed.second.role)}`}${closed.reason === null ? null : html`: ${typed(closed.reason)}`}.`,
    ],
    columns: [
      { head: 'Item', mm: 30 },
      { head: 'What' },
      { head: 'Out', mm: 21 },
      { head: 'In the shop', mm: 22 },
      { head: 'Elsewhere, used', mm: 34 },
      { head: 'Open, seen last', mm: 37 },
    ],
    groups: bags.flatMap((bag) => {
      const lines = state.lines.filter((line) => line.bag === bag);
      const called = frozen.thing(bag).name === bag ? bag : `${frozen.thing(bag).name} (${bag})`;
      return [...new Set(lines.map(({ pocket }) => pocket))].map((pocket) => ({
        called: pocket === undefined ? called : `${called}, pocket ${pocket}`,
        rows: lines
          .filter((line) => line.pocket === pocket)
          .map((line) =>
            row(line, { frozen, stays, own: own.filter((one) => one.bag === bag && one.item === line.item) }),
          ),
      }));
    }),
    none: 'Nothing went out.',
    signs: ['Counted in by', 'Counted again by', 'Received in the shop by'],
    end: `End of return list, ${countOf(state.lines.length, 'line')}.`,
  };
}

function row(
  line: ReturnLine,
  x: { frozen: Frozen; stays: ReturnType<typeof plannedToStay>; own: readonly Discrepancy[] },
): Part[] {
  const { thing, out, at, used, open, lastSeen } = line;
  const text = (amount: { pieces: number; parts: number }): string => amountText(amount, thing.parts);
  const inShop = at.find(({ place }) => place === shop);
  const where = (place: string): string => placeName(place, x.frozen.plan);
  const elsewhere = [
    ...at
      .filter(({ place }) => place !== shop)
      .map((one) => `${text(one)} ${one.how === 'left' ? 'left at' : 'back at'} ${where(one.place)}`),
    ...(isSome(used) ? [`${text(used)} used`] : []),
    ...(line.apart ?? []).map(({ pocket, pieces }) => `${pieces} of them went in ${pocket}`),
    ...x.stays
      .filter(({ item }) => item === line.item)
      .map(({ pieces, place }) => `planned: ${pieces} to stay at ${where(place)}`),
  ];
  const named = x.own.map(({ number, closed }) => `D-${number}${closed === undefined ? '' : ' closed'}`).join(', ');
  return [
    html`<span class="code">${typed(line.item)}</span>`,
    html`${typed(thing.name)}${thing.serial === undefined ? null : html`<br /><span class="small">serial ${typed(thing.serial)}</span>`}`,
    text(out),
    inShop === undefined ? 'none' : text(inShop),
    elsewhere.length === 0
      ? 'none'
      : elsewhere.map((words, index) => html`${index === 0 ? null : html`<br />`}${typed(words)}`),
    isSome(open)
      ? html`<b>${text(open)}</b>${named === '' ? null : html`, ${named}`}<br /><span class="small"
            >${typed(where(lastSeen.place))}, ${spoken(lastSeen.at)}, ${typed(lastSeen.by.name)}</span
          >`
      : html`none${named === '' ? null : html`; ${named}`}`,
  ];
}
