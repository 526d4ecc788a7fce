/** Tables as people keep them in spreadsheets: read strictly, written so that opening them does no harm. */
export { csvText } from './csvText.ts';
export { readTable, type Table, type TableContent, type TableForm } from './readTable.ts';
export { rowsMost, type Share } from './splitTable.ts';
export type { RowReading } from './rowReading.ts';
export type { CellQuantity } from './plainQuantity.ts';
export { TableReading } from './tableReading.ts';
export { Memo } from './memo.ts';
