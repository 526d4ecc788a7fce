export { torqueBands, type TorqueBand } from './bands.ts';
export { isPrintedSize, isPrintedThread, matchNotes, type Matched } from './printedThread.ts';
