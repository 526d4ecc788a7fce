/** A block of cells in hand: from where it began to where the hand is. */
export interface CellBlock {
  fromId: string;
  fromColumn: string;
  toId: string;
  toColumn: string;
}

/** The cells that lie in a block, by places. */
export interface BlockPlaces {
  firstRow: number;
  lastRow: number;
  firstColumn: number;
  lastColumn: number;
  /** Where the hand is. */
  handRow: number;
  handColumn: number;
}

/** Where a block lies among rows and columns; null where an end of it is gone. */
export function blockPlaces(
  block: CellBlock,
  rows: readonly { id: string }[],
  columns: readonly { key: string }[],
): BlockPlaces | null {
  const fromRow = rows.findIndex(({ id }) => id === block.fromId);
  const handRow = block.toId === block.fromId ? fromRow : rows.findIndex(({ id }) => id === block.toId);
  const fromColumn = columns.findIndex(({ key }) => key === block.fromColumn);
  const handColumn = columns.findIndex(({ key }) => key === block.toColumn);
  if (fromRow < 0 || handRow < 0 || fromColumn < 0 || handColumn < 0) return null;
  return {
    firstRow: Math.min(fromRow, handRow),
    lastRow: Math.max(fromRow, handRow),
    firstColumn: Math.min(fromColumn, handColumn),
    lastColumn: Math.max(fromColumn, handColumn),
    handRow,
    handColumn,
  };
}

/** The block after a key to the side; null where the key is none of those. */
export function blockAside(
  block: CellBlock | null,
  { key, extend, row, columns }: { key: string; extend: boolean; row: string; columns: readonly { key: string }[] },
): CellBlock | null {
  const by = key === 'ArrowRight' ? 1 : key === 'ArrowLeft' ? -1 : 0;
  if (by === 0 || columns.length === 0) return null;
  const last = columns.length - 1;
  const at = block === null ? (by === 1 ? -1 : columns.length) : columns.findIndex((one) => one.key === block.toColumn);
  const to = columns[Math.min(Math.max(at + by, 0), last)]?.key ?? '';
  if (!extend || block === null) return { fromId: row, fromColumn: to, toId: row, toColumn: to };
  return { ...block, toColumn: to };
}

/** The block after the hand went to another row: it grows there, or goes along as one cell. */
export function blockTo(block: CellBlock, row: string, extend: boolean): CellBlock {
  return extend
    ? { ...block, toId: row }
    : { fromId: row, fromColumn: block.toColumn, toId: row, toColumn: block.toColumn };
}
