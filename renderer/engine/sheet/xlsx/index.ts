/** Workbooks (.xlsx): read behind guards, written with nothing in them that runs. */
export { openWorkbook, type Workbook } from './openWorkbook.ts';
export { workbookBytes } from './workbookBytes.ts';
