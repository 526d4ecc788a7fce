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
  /** The same as a text. */
  key: string;
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
/** In a role’s hands. */
export const inHand = (role: string): Whereabouts => ({ at: 'hand', role });
/** Set down at a place. */
export const atPlace = (place: string): Whereabouts => ({ at: 'place', place });
/** In its hole, loosened or fixed. */
export const atSite = (loosened: boolean): Whereabouts => ({ at: 'site', loosened });
/** In a bag, in a pouch where one is named. */
export const inBag = (bag: string | null, pouch?: string): Whereabouts =>
  pouch === undefined ? { at: 'bag', bag } : { at: 'bag', bag, pouch };

/** The same text for the same whereabouts. */
function whereKey(where: Whereabouts): string {
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
  private lines = new Map<string, LedgerTransfer>();
  private point: CoursePoint = start;
  private role: string | null = null;
  private moved = new Set<Piece>();
  private readonly pieces: Piece[] = [];
  private readonly small: Piece[] = [];
  private readonly held = new Set<Piece>();
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
    this.lines = new Map();
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

  all(): readonly Piece[] {
    return this.pieces;
  }

  /** What is in anybody's hands. */
  inHands(): ReadonlySet<Piece> {
    return this.held;
  }

  /** Fasteners and washers, wherever they are. */
  fasteners(): readonly Piece[] {
    return this.small;
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
        key: whereKey(where),
        bag: null,
        by: null,
        unasked: this.entries.length,
        intervals: [{ where, from: start, to: null }],
      };
    });
    pieces.push(...added);
    this.pieces.push(...added);
    if (kind === 'fastener' || kind === 'washer') this.small.push(...added);
    return added;
  }

  move(pieces: readonly Piece[], to: Whereabouts): void {
    const toKey = whereKey(to);
    for (const piece of pieces) {
      const { where: from, key: fromKey } = piece;
      if (fromKey === toKey) continue;
      if (from.at === 'bag') piece.bag = from.bag;
      this.note(piece, to, toKey);
      const last = piece.intervals.at(-1);
      if (last !== undefined) last.to = this.point;
      piece.intervals.push({ where: to, from: this.point, to: null });
      piece.where = to;
      piece.key = toKey;
      if (to.at === 'hand') this.held.add(piece);
      else this.held.delete(piece);
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
    if (this.secured === null) return this.entries;
    return this.entries.map((entry, index) => {
      const late = this.all().filter(({ unasked }) => unasked > index);
      return late.length === 0 ? entry : { ...entry, rows: [...entry.rows, ...gathered(late, firstRow)] };
    });
  }

  private rows(): LedgerRow[] {
    const { secured } = this;
    if (secured === null) return [];
    return gathered(this.all(), (piece) => {
      const { id, kind, where, key } = piece;
      return { row: { id, kind, quantity: 1, where, secured: secured(piece) }, key };
    });
  }

  ways(): PieceWay[] {
    return this.all().map(({ id, kind, number, intervals }) => ({ id, kind, piece: number, intervals }));
  }

  private note({ id, kind, where: from, key }: Piece, to: Whereabouts, toKey: string): void {
    const line = `${kind}\n${id}\n${key}\n${toKey}`;
    const same = this.lines.get(line);
    if (same) {
      same.quantity += 1;
      return;
    }
    const transfer: LedgerTransfer = { id, kind, quantity: 1, from, to };
    this.lines.set(line, transfer);
    this.transfers.push(transfer);
  }
}

/** Rows of pieces that are the same in everything a row says. */
function gathered(pieces: readonly Piece[], of: (piece: Piece) => { row: LedgerRow; key: string }): LedgerRow[] {
  const rows = new Map<string, LedgerRow>();
  for (const piece of pieces) {
    const { row, key: where } = of(piece);
    const key = `${row.kind}\n${row.id}\n${row.secured}\n${where}`;
    const same = rows.get(key);
    if (same) same.quantity += 1;
    else rows.set(key, row);
  }
  return [...rows.values()];
}

function firstRow({ id, kind, intervals }: Piece): { row: LedgerRow; key: string } {
  const where = intervals[0]?.where ?? store;
  const secured = where.at === 'site' ? 'fixed' : 'home';
  return { row: { id, kind, quantity: 1, where, secured }, key: whereKey(where) };
}

function itemKey(kind: PieceKind, id: string): string {
  return `${kind === 'washer' ? 'washer' : kind === 'fastener' ? 'fastener' : 'carried'} ${id}`;
}
