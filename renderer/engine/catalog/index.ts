/** The catalog as a table: items as rows of texts, and rows as items. */
export { cellOfItem, cellsOfItem } from './cellText.ts';
export { itemColumns, type ItemTableColumn } from './itemColumns.ts';
export { itemOfCells } from './itemOfCells.ts';
export { leftAs, leftNow, stillLeft } from './leftApart.ts';
export { DoublesFinder, type DoubleReason, type Doubles } from './doubles.ts';
