import type { Refusal } from '../../shared-types/errors.ts';
import type { likeliestSetting, PreloadTask } from '../engine/torque/preloadChance.ts';

/** What is drawn for, and the settings that are judged on the same draws. */
export interface LikeliestAsked {
  task: PreloadTask;
  also: readonly number[];
}

export type LikeliestFound = ReturnType<typeof likeliestSetting>;

export type LikeliestTold = { found: LikeliestFound } | { refusal: Refusal };
