import type { BenchSheet } from '../benchSheet.ts';
import { convertSheet } from './convert.ts';
import { engagementSheet } from './engagement.ts';
import { likeliestSheet } from './likeliest.ts';
import { limitsSheet } from './limits.ts';
import { nearSizesSheet } from './nearSizes.ts';
import { preloadSheet } from './preload.ts';
import { releaseSheet } from './release.ts';
import { runningLeftSheet } from './runningLeft.ts';
import { settingSheet } from './setting.ts';
import { socketSheet } from './socket.ts';
import { threadSheet } from './thread.ts';
import { windUpSheet } from './windUp.ts';

/** Every one-off computation, in the order of the list. */
export const benchSheets: readonly [BenchSheet, ...BenchSheet[]] = [
  convertSheet,
  threadSheet,
  socketSheet,
  nearSizesSheet,
  preloadSheet,
  limitsSheet,
  settingSheet,
  likeliestSheet,
  runningLeftSheet,
  releaseSheet,
  windUpSheet,
  engagementSheet,
];

export function benchSheet(id: string | undefined): BenchSheet {
  return benchSheets.find((sheet) => sheet.id === id) ?? benchSheets[0];
}
