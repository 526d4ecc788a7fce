import type {
  CoursePoint,
  LedgerEntry,
  LedgerRow,
  LedgerTransfer,
  PieceKind,
  PieceWay,
  Secured,
  Whereabouts,
} from '../../../../shared-types/outing.ts';

/** One physical piece. */
export interface Piece {
  id: string;
  kind: PieceKind;
  number: number;
  where: Whereabouts;
  /** The bag it was last taken from: whose tether points it hangs on. */
  bag: string | null;
  /** Entries written before anything was asked of it: it lay where it was. */
  unasked: number;
  /** The role that last had to do with it. */
  by: string | null;
  intervals: PieceWay['intervals'];
}

export const store: Whereabouts = { at: 'store' };
export const nowhere: Whereabouts = { at: 'nowhere' };
export const inHand = (role: string): Whereabouts => ({ at: 'hand', role });
export const atPlace = (place: string): Whereabouts => ({ at: 'place', place });
export const atSite = (loosened: boolean): Whereabouts => ({ at: 'site', loosened });
export const inBag = (bag: string | null, pouch?: string): Whereabouts =>
  pouch === undefined ? { at: 'bag', bag } : { at: 'bag', bag, pouch };

/** The same text for the same whereabouts. */
export function whereKey(where: Whereabouts): string {
  switch (where.at) {
    case 'bag':
      return JSON.stringify([where.at, where.bag, where.pouch ?? null]);
    case 'hand':
      return JSON.stringify([where.at, where.role]);
    case 'place':
      return JSON.stringify([where.at, where.place]);
    case 'site':
      return JSON.stringify([where.at, where.loosened]);
    default:
      return JSON.stringify([where.at]);
  }
}

const start: CoursePoint = { outing: '', step: null, moment: 'packed' };

/** Every piece that ever leaves the store or its hole, one by one: nothing is added or taken away, only moved. */
export class Book {
  readonly entries: LedgerEntry[] = [];
  private readonly byItem = new Map<string, Piece[]>();
  private transfers: LedgerTransfer[] = [];
  private point: CoursePoint = start;
  private role: string | null = null;
  private moved = new Set<Piece>();
  private readonly secured: ((piece: Piece) => Secured) | null;

  /** Without a word on what secures a piece, no rows are written. */
  constructor(secured: ((piece: Piece) => Secured) | null) {
    this.secured = secured;
  }

  /** What is moved from now on is moved at this point, by this role. */
  open(point: CoursePoint, role: string | null): void {
    this.point = point;
    this.role = role;
    this.moved = new Set();
    this.transfers = [];
  }

  /** Writes down what was moved, and where everything is. */
  close(): void {
    this.entries.push({ ...this.point, transfers: this.transfers, rows: this.rows() });
  }

  /** Pieces of an item that meet a condition, by number. */
  where(kind: PieceKind, id: string, meets: (where: Whereabouts, piece: Piece) => boolean): Piece[] {
    return (this.byItem.get(itemKey(kind, id)) ?? []).filter((piece) => meets(piece.where, piece));
  }

  /** What was moved at this point. */
  added(): ReadonlySet<Piece> {
    return this.moved;
  }

  all(): Piece[] {
    return [...this.byItem.values()].flat();
  }

  /** More of an item, that were in the store or at the site from the beginning. */
  known(kind: PieceKind, id: string, quantity: number, where: Whereabouts): Piece[] {
    const key = itemKey(kind, id);
    const pieces = this.byItem.get(key) ?? [];
    this.byItem.set(key, pieces);
    const added = Array.from({ length: quantity }, (_, index): Piece => {
      const number = pieces.length + index + 1;
      return {
        id,
        kind,
        number,
        where,
        bag: null,
        by: null,
        unasked: this.entries.length,
        intervals: [{ where, from: start, to: null }],
      };
    });
    pieces.push(...added);
    return added;
  }

  move(pieces: readonly Piece[], to: Whereabouts): void {
    for (const piece of pieces) {
      const from = piece.where;
      if (whereKey(from) === whereKey(to)) continue;
      if (from.at === 'bag') piece.bag = from.bag;
      this.note(piece, from, to);
      const last = piece.intervals.at(-1);
      if (last !== undefined) last.to = this.point;
      piece.intervals.push({ where: to, from: this.point, to: null });
      piece.where = to;
      piece.by = this.role;
      this.moved.add(piece);
    }
  }

  /** Where everything was before anything was done. */
  opening(): LedgerRow[] {
    return gathered(this.all(), firstRow);
  }

  /** Every entry with every piece: what was first asked for late had lain where it was all the time. */
  finished(): LedgerEntry[] {
    return this.entries.map((entry, index) => {
      const late = this.all().filter(({ unasked }) => unasked > index);
      return late.length === 0 ? entry : { ...entry, rows: [...entry.rows, ...gathered(late, firstRow)] };
    });
  }

  private rows(): LedgerRow[] {
    const { secured } = this;
    if (secured === null) return [];
    return gathered(this.all(), (piece) => {
      const { id, kind, where } = piece;
      return { id, kind, quantity: 1, where, secured: secured(piece) };
    });
  }

  ways(): PieceWay[] {
    return this.all().map(({ id, kind, number, intervals }) => ({ id, kind, piece: number, intervals }));
  }

  private note({ id, kind }: Piece, from: Whereabouts, to: Whereabouts): void {
    const same = this.transfers.find(
      (t) => t.id === id && t.kind === kind && whereKey(t.from) === whereKey(from) && whereKey(t.to) === whereKey(to),
    );
    if (same) same.quantity += 1;
    else this.transfers.push({ id, kind, quantity: 1, from, to });
  }
}

function gathered(pieces: readonly Piece[], rowOf: (piece: Piece) => LedgerRow): LedgerRow[] {
  const rows = new Map<string, LedgerRow>();
  for (const piece of pieces) {
    const row = rowOf(piece);
    const key = JSON.stringify([row.kind, row.id, whereKey(row.where), row.secured]);
    const same = rows.get(key);
    if (same) same.quantity += 1;
    else rows.set(key, row);
  }
  return [...rows.values()];
}

function firstRow({ id, kind, intervals }: Piece): LedgerRow {
  const where = intervals[0]?.where ?? store;
  return { id, kind, quantity: 1, where, secured: where.at === 'site' ? 'fixed' : 'home' };
}

function itemKey(kind: PieceKind, id: string): string {
  return `${kind === 'washer' ? 'washer' : kind === 'fastener' ? 'fastener' : 'carried'} ${id}`;
}
