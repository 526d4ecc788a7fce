/** The inspector's desk: callouts of a kept list or a file, judged row by row, looked at, and what a person decided about them. */
export { acceptanceOf, countOpen } from './acceptance.ts';
export { cellNamed, columnNamed } from './cellNamed.ts';
export { JudgedTable, tableRefusal } from './judgeTable.ts';
export { JudgedRecords } from './judgedRecords.ts';
export { bandOfCells } from './lineOf.ts';
export { orderOf } from './orderOf.ts';
export { knownTools, sameSerial, tracedState } from './tracedTool.ts';
export { stepCallouts, stepColumns } from './stepCallouts.ts';
export { torqueOfCells } from './torqueOfCells.ts';
