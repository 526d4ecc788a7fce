/** What a workbook may hold at most; all of it is looked at before anything is unpacked. */
export const fileMostBytes = 50 * 1024 * 1024;
export const entriesMost = 2000;
export const entryMostBytes = 50 * 1024 * 1024;
export const unpackedMostBytes = 50 * 1024 * 1024;
/** Sheets of plain values pack to a tenth or a thirtieth; what packs tighter than this is made to burst. */
export const ratioMost = 100;
/** Below this size no ratio does harm. */
export const ratioFromBytes = 100 * 1024;
export const depthMost = 64;
export const sheetsMost = 255;
export const rowsMost = 500_000;
export const columnsMost = 256;
export const cellsMost = 5_000_000;
/** Cells a sheet may say it spans. */
export const spannedMost = 50_000_000;
export const stringsMost = 2_000_000;
/** A spreadsheet's own limit for one cell. */
export const cellTextMost = 32_767;
