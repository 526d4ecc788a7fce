import { parentPort, workerData } from 'node:worker_threads';
import { packedShare, type ShareAsked } from './packedShare.ts';

/** Judges the share it was begun with, and hands its blocks over without a copy. */
if (parentPort === null) throw new Error('this is the entry of a worker');
const answer = packedShare(workerData as ShareAsked);
parentPort.postMessage(answer, answer?.blocks.map(({ buffer }) => buffer as ArrayBuffer) ?? []);
