/// <reference lib="webworker" />
import { RefusedError } from '../engine/errors.ts';
import { likeliestSetting } from '../engine/torque/preloadChance.ts';
import type { LikeliestAsked, LikeliestTold } from './likeliestMessages.ts';

self.addEventListener('message', ({ data: { task, also } }: MessageEvent<LikeliestAsked>) => {
  let told: LikeliestTold;
  try {
    told = { found: likeliestSetting(task, also) };
  } catch (error) {
    told = { refusal: error instanceof RefusedError ? error.refusal : { code: 'internal', message: String(error) } };
  }
  self.postMessage(told);
});
