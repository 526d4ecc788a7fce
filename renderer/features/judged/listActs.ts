import { rowsMost } from '../../../shared-types/records/judgedLists.ts';
import type { AcceptedFinding, CalloutList, KeptCallout } from '../../../shared-types/records/judgedLists.ts';
import { cellNamed, columnNamed } from '../../engine/inspection/index.ts';
import { RefusedError } from '../../engine/errors.ts';
import { breaths } from '../../store/breathe.ts';
import type { Act, Proposal } from '../../store/store.ts';

export type Cells = Record<string, string>;

/** A kind of list: what it and its rows are kept and called as. Rows of every kind have one shape. */
export interface ListKind<L extends CalloutList> {
  one: string;
  many: string;
  putList: (list: L) => Proposal;
  removeList: (what: { id: string; rev: number }) => Proposal;
  putRow: (row: KeptCallout) => Proposal;
  removeRow: (what: { id: string; rev: number }) => Proposal;
  /** What a row is called by. */
  nameOf: (cells: Cells) => string;
}

/** Rows of a table on their way into a list. */
export interface BroughtIn<L extends CalloutList> {
  list: L;
  isNewList: boolean;
  /** What the list has. */
  kept: readonly KeptCallout[];
  brought: readonly Cells[];
  /** The columns that the table has something for. */
  fed: readonly string[];
  /** The columns that tell one row from every other. */
  keyColumns: readonly string[];
  newId: () => string;
}

export const titled = (title: string): string => (title.length > 190 ? `${title.slice(0, 189)}…` : title);

/** The columns of a list, as they grow by what is written; what is written for one goes under the list's name for it. */
class OwnNames {
  readonly columns: string[];
  /** Every row names the same few, so each is looked for once. */
  private readonly known = new Map<string, string>();

  constructor(columns: readonly string[]) {
    this.columns = [...columns];
  }

  own(cells: Cells): Cells {
    const own: Cells = {};
    for (const [name, text] of Object.entries(cells)) {
      const column = this.columnOf(name);
      if (text.trim() !== '') own[column] = text;
    }
    return own;
  }

  private columnOf(name: string): string {
    const known = this.known.get(name);
    if (known !== undefined) return known;
    const column = columnNamed(this.columns, name) ?? name;
    if (!this.columns.includes(column)) this.columns.push(column);
    this.known.set(name, column);
    return column;
  }
}

function underOwnNames(columns: readonly string[], cells: Cells): { columns: string[]; cells: Cells } {
  const names = new OwnNames(columns);
  const own = names.own(cells);
  return { columns: names.columns, cells: own };
}

/** The row with a finding taken as it is; one of the same rule that says something else is not touched by it. */
export function accepting(row: KeptCallout, finding: AcceptedFinding): KeptCallout {
  const others = (row.accepted ?? []).filter(
    ({ rule, message }) => !(rule === finding.rule && message === finding.message),
  );
  return { ...row, accepted: [...others, finding] };
}

/** What a person does to lists and their rows, each as one act. */
export function listActs<L extends CalloutList>(of: ListKind<L>) {
  const { one, many, putRow: put } = of;
  const nameOf = ({ cells }: Pick<KeptCallout, 'cells'>): string => of.nameOf(cells);

  function withColumns(list: L, columns: string[]): Proposal[] {
    return columns.length === list.columns.length ? [] : [of.putList({ ...list, columns })];
  }

  /** A list with its rows, in one act; the first of a task may have none. */
  async function addList(list: L, rows: readonly Cells[], newId: () => string, title?: string): Promise<Act> {
    const proposals = [of.putList(list)];
    const breath = breaths();
    for (const [position, cells] of rows.entries()) {
      await breath();
      proposals.push(put({ id: newId(), rev: 0, list: list.id, position, cells }));
    }
    return { action: `add-${many}`, title: titled(title ?? `Add list “${list.name}”`), proposals };
  }

  /** Rows out of a table: new ones behind those that the list has, changed ones in their place; what was accepted of them stays with them. */
  async function bringIn(x: BroughtIn<L>): Promise<Act> {
    const { list, isNewList, kept, brought, fed, keyColumns, newId } = x;
    const keyOf = (cells: Readonly<Cells>): string => JSON.stringify(keyColumns.map((name) => cellNamed(cells, name)));
    const breath = breaths();
    const before = new Map<string, KeptCallout>();
    for (const row of kept) {
      await breath();
      before.set(keyOf(row.cells), row);
    }
    const proposals: Proposal[] = [];
    const names = new OwnNames(list.columns);
    const { columns } = names;
    let count = kept.length;
    let last = kept.at(-1)?.position ?? -1;
    for (const row of brought) {
      await breath();
      const own = names.own(row);
      const held = before.get(keyOf(row));
      if (held === undefined) {
        last += 1;
        count += 1;
      }
      const to = held ?? { id: newId(), rev: 0, list: list.id, position: last };
      // What the table does not feed stays as it was typed.
      const unfed = Object.entries(held?.cells ?? {}).filter(([name]) => columnNamed(fed, name) === undefined);
      proposals.push(put({ ...to, cells: { ...Object.fromEntries(unfed), ...own } }));
    }
    if (count > rowsMost) {
      const message = `The list would hold ${count} ${many}; at most ${rowsMost} are kept. A longer CSV file can be judged without being kept.`;
      throw new RefusedError({ code: 'too-large', message, value: count });
    }
    const lists = isNewList ? [of.putList({ ...list, columns })] : withColumns(list, columns);
    return {
      action: `add-${many}`,
      title: titled(`Bring ${brought.length} ${brought.length === 1 ? one : many} into “${list.name}”`),
      proposals: [...lists, ...proposals],
    };
  }

  /** One row; `isNewList` where its list begins with it. */
  function addRow(list: L, row: KeptCallout, isNewList: boolean): Act {
    const { columns, cells } = underOwnNames(list.columns, row.cells);
    const lists: Proposal[] = isNewList ? [of.putList({ ...list, columns })] : withColumns(list, columns);
    return {
      action: `add-${one}`,
      title: titled(`Add ${one} ${nameOf(row)}`),
      proposals: [...lists, put({ ...row, cells })],
    };
  }

  function editRow(list: L, before: KeptCallout, typed: Cells): Act {
    const { columns, cells } = underOwnNames(list.columns, typed);
    return {
      action: `edit-${one}`,
      title: titled(`Edit ${one} ${nameOf(before)}`),
      proposals: [...withColumns(list, columns), put({ ...before, cells })],
    };
  }

  function removeRows(rows: readonly KeptCallout[]): Act {
    const [first] = rows;
    const what = rows.length === 1 && first !== undefined ? `${one} ${nameOf(first)}` : `${rows.length} ${many}`;
    return {
      action: `remove-${many}`,
      title: titled(`Remove ${what}`),
      proposals: rows.map(({ id, rev }) => of.removeRow({ id, rev })),
    };
  }

  function removeList(list: L, rows: readonly KeptCallout[]): Act {
    return {
      action: `remove-${many}`,
      title: titled(`Remove list “${list.name}”`),
      proposals: [
        ...rows.map(({ id, rev }) => of.removeRow({ id, rev })),
        of.removeList({ id: list.id, rev: list.rev }),
      ],
    };
  }

  function renameList(list: L, name: string): Act {
    return {
      action: `edit-${many}`,
      title: titled(`Rename list “${list.name}” to “${name}”`),
      proposals: [of.putList({ ...list, name })],
    };
  }

  function acceptFinding(row: KeptCallout, finding: AcceptedFinding): Act {
    return {
      action: 'accept-finding',
      title: titled(`Accept ${finding.rule} on ${nameOf(row)}`),
      proposals: [put(accepting(row, finding))],
    };
  }

  function withdrawAcceptance(row: KeptCallout, finding: AcceptedFinding): Act {
    const left = (row.accepted ?? []).filter((accepted) => accepted !== finding);
    const { accepted: _gone, ...rest } = row;
    return {
      action: 'withdraw-acceptance',
      title: titled(`Withdraw the acceptance of ${finding.rule} on ${nameOf(row)}`),
      proposals: [put(left.length === 0 ? rest : { ...rest, accepted: left })],
    };
  }

  return { addList, bringIn, addRow, editRow, removeRows, removeList, renameList, acceptFinding, withdrawAcceptance };
}
