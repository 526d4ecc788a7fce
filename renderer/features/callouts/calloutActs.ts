import type { AcceptedFinding, CalloutList, KeptCallout } from '../../../shared-types/records/judgedLists.ts';
import { cellNamed, columnNamed } from '../../engine/inspection/index.ts';
import type { Act, Proposal } from '../../store/store.ts';

export type Cells = Record<string, string>;

const put = (callout: KeptCallout): Proposal => ({ table: 'callouts', put: callout });
const nameOf = ({ cells }: Pick<KeptCallout, 'cells'>): string => cellNamed(cells, 'id') || 'without id';
const titled = (title: string): string => (title.length > 190 ? `${title.slice(0, 189)}…` : title);

/** What is written for a column goes under the name that the list has for it. */
function underOwnNames(columns: readonly string[], cells: Cells): { columns: string[]; cells: Cells } {
  const all = [...columns];
  const own: Cells = {};
  for (const [name, text] of Object.entries(cells)) {
    const column = columnNamed(all, name) ?? name;
    if (!all.includes(column)) all.push(column);
    if (text.trim() !== '') own[column] = text;
  }
  return { columns: all, cells: own };
}

function withColumns(list: CalloutList, columns: string[]): Proposal[] {
  return columns.length === list.columns.length ? [] : [{ table: 'calloutLists', put: { ...list, columns } }];
}

/** A list with its rows, in one act; the first of a task may have none. */
export function addList(list: CalloutList, rows: readonly Cells[], newId: () => string, title?: string): Act {
  return {
    action: 'add-callouts',
    title: titled(title ?? `Add list “${list.name}”`),
    proposals: [
      { table: 'calloutLists', put: list },
      ...rows.map((cells, position) => put({ id: newId(), rev: 0, list: list.id, position, cells })),
    ],
  };
}

/** Rows behind those that a list has. */
export function addRows(list: CalloutList, last: number, rows: readonly Cells[], newId: () => string): Act {
  const proposals: Proposal[] = [];
  let { columns } = list;
  for (const [at, cells] of rows.entries()) {
    const own = underOwnNames(columns, cells);
    ({ columns } = own);
    proposals.push(put({ id: newId(), rev: 0, list: list.id, position: last + 1 + at, cells: own.cells }));
  }
  return {
    action: 'add-callouts',
    title: titled(`Add ${rows.length} callouts to “${list.name}”`),
    proposals: [...withColumns(list, columns), ...proposals],
  };
}

/** One callout; `isNewList` where its list begins with it. */
export function addCallout(list: CalloutList, callout: KeptCallout, isNewList: boolean): Act {
  const { columns, cells } = underOwnNames(list.columns, callout.cells);
  const lists: Proposal[] = isNewList
    ? [{ table: 'calloutLists', put: { ...list, columns } }]
    : withColumns(list, columns);
  return {
    action: 'add-callout',
    title: titled(`Add callout ${nameOf(callout)}`),
    proposals: [...lists, put({ ...callout, cells })],
  };
}

export function editCallout(list: CalloutList, before: KeptCallout, typed: Cells): Act {
  const { columns, cells } = underOwnNames(list.columns, typed);
  return {
    action: 'edit-callout',
    title: titled(`Edit callout ${nameOf(before)}`),
    proposals: [...withColumns(list, columns), put({ ...before, cells })],
  };
}

export function removeCallouts(callouts: readonly KeptCallout[]): Act {
  const [first] = callouts;
  const what =
    callouts.length === 1 && first !== undefined ? `callout ${nameOf(first)}` : `${callouts.length} callouts`;
  return {
    action: 'remove-callouts',
    title: titled(`Remove ${what}`),
    proposals: callouts.map(({ id, rev }) => ({ table: 'callouts', remove: { id, rev } })),
  };
}

export function removeList(list: CalloutList, rows: readonly KeptCallout[]): Act {
  return {
    action: 'remove-callouts',
    title: titled(`Remove list “${list.name}”`),
    proposals: [
      ...rows.map(({ id, rev }): Proposal => ({ table: 'callouts', remove: { id, rev } })),
      { table: 'calloutLists', remove: { id: list.id, rev: list.rev } },
    ],
  };
}

export function renameList(list: CalloutList, name: string): Act {
  return {
    action: 'edit-callouts',
    title: titled(`Rename list “${list.name}” to “${name}”`),
    proposals: [{ table: 'calloutLists', put: { ...list, name } }],
  };
}

/** A finding taken as it is; one of the same rule that says something else is not touched by it. */
export function acceptFinding(callout: KeptCallout, finding: AcceptedFinding): Act {
  const others = (callout.accepted ?? []).filter(
    ({ rule, message }) => !(rule === finding.rule && message === finding.message),
  );
  return {
    action: 'accept-finding',
    title: titled(`Accept ${finding.rule} on ${nameOf(callout)}`),
    proposals: [put({ ...callout, accepted: [...others, finding] })],
  };
}

export function withdrawAcceptance(callout: KeptCallout, finding: AcceptedFinding): Act {
  const left = (callout.accepted ?? []).filter((one) => one !== finding);
  const { accepted: _gone, ...rest } = callout;
  return {
    action: 'withdraw-acceptance',
    title: titled(`Withdraw the acceptance of ${finding.rule} on ${nameOf(callout)}`),
    proposals: [put(left.length === 0 ? rest : { ...rest, accepted: left })],
  };
}
