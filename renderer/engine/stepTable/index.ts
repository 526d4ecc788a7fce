/** A task's steps as a table: steps as rows of texts, and rows as steps. */
export { stepColumns } from './stepColumns.ts';
export { cellsOfStep, stepOfCells, type StepNames } from './stepOfCells.ts';
