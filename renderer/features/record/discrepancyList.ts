import type { Discrepancy } from '../../../shared-types/records/revision.ts';
import { amountText } from '../../engine/return/index.ts';
import { html } from '../manifest/html.ts';
import type { Part } from '../manifest/html.ts';
import { typed } from '../manifest/manifestBody.ts';
import { spoken } from '../manifest/pageFurniture.ts';
import { countOf } from '../steps/words.ts';
import type { PrintedList } from './recordPrint.ts';
import { howWords } from './recordTables.ts';

/** What a discrepancy does not say itself. */
export interface DiscrepancyFacts {
  partsOf: (one: Discrepancy) => number;
  taskOf: (one: Discrepancy) => string;
  numberOf: (one: Discrepancy) => number | null;
  namesOf: (one: Discrepancy) => { outing: string; thing: string; bag: string };
}

/** Discrepancies as they are printed: the open ones first, each with where it was seen last, and how it was closed. */
export function discrepancyList(
  discrepancies: readonly Discrepancy[],
  facts: DiscrepancyFacts,
  x: { called: string; all: boolean },
): PrintedList {
  const open = discrepancies.filter(({ closed }) => closed === undefined);
  const closed = discrepancies.filter((one) => one.closed !== undefined);
  return {
    sheet: 'Discrepancy report',
    heading: 'Discrepancies',
    beneath: x.called,
    said: [
      html`<b>${countOf(open.length, 'discrepancy', 'discrepancies')} open</b>, ${closed.length} closed.`,
      'A discrepancy is closed by a named person alone. Counting a piece in closes none.',
    ],
    columns: [
      { head: 'No', mm: 14 },
      { head: 'What' },
      { head: 'How much', mm: 22 },
      { head: 'Seen last', mm: 34 },
      { head: 'Opened', mm: 33 },
      { head: 'Closed', mm: 34 },
    ],
    groups: [
      { called: 'Open', rows: open.map((one) => row(one, facts, x.all)) },
      { called: 'Closed', rows: closed.map((one) => row(one, facts, x.all)) },
    ].filter(({ rows }) => rows.length > 0),
    none: 'No discrepancies.',
    signs: ['Reported by', 'Taken note of by'],
    end: `End of discrepancy report, ${countOf(discrepancies.length, 'discrepancy', 'discrepancies')}.`,
  };
}

function row(one: Discrepancy, { partsOf, taskOf, numberOf, namesOf }: DiscrepancyFacts, all: boolean): Part[] {
  const { number, lastSeen, opened, words, closed } = one;
  const names = namesOf(one);
  const revision = numberOf(one);
  return [
    html`<b>D-${number}</b>${all ? html`<br /><span class="small code">${typed(taskOf(one))}</span>` : null}`,
    html`${typed(names.thing)}<br /><span class="small"
        >${typed(names.outing)}, ${typed(names.bag)}${revision === null ? null : html`, revision ${revision}`}</span
      >`,
    amountText(one, partsOf(one)),
    html`${typed(lastSeen.place)}${lastSeen.at === undefined ? null : html`<br /><span class="small">${spoken(lastSeen.at)}${lastSeen.event === undefined ? null : html`, event ${lastSeen.event}`}</span>`}`,
    html`${spoken(opened.at)}<br /><span class="small"
        >${typed(opened.by.name)}, ${typed(opened.by.role)}${words === undefined ? null : html`: ${typed(words)}`}</span
      >`,
    closed === undefined
      ? html`<span class="write"></span>`
      : html`${howWords[closed.how]}, ${spoken(closed.at)}<br /><span class="small"
            >${typed(closed.by.name)}, ${typed(closed.by.role)}: ${typed(closed.words)}</span
          >`,
  ];
}
