import { ensureBrowser } from './browser.ts';
import { checkScript, checkTypes } from './checks.ts';
import type { Result } from './result.ts';
import { runSuite } from './suite.ts';

/**
 * Stages of one lane run one after the other, the lanes beside each other. What drives a browser waits for it half of
 * the time, and may be judged by the clock; what computes gives way to it and takes what is left of the machine.
 */
export type Lane = 'drives' | 'computes';

export interface Stage {
  name: string;
  lane: Lane;
  /** Stages above it that must have passed before this one makes sense; picking this one picks them too. */
  needs: readonly string[];
  run: () => Promise<Result>;
}

const stageIn =
  (lane: Lane) =>
  (name: string, run: () => Promise<Result>, needs: readonly string[] = []): Stage => ({ name, lane, needs, run });

const drives = stageIn('drives');
const computes = stageIn('computes');

/** Everything there is to check. What others stand on comes first, then the quick and general. */
export const stages: readonly Stage[] = [
  computes('chromium', ensureBrowser),
  computes('build', () => checkScript('build', null, 300)),
  computes('types', checkTypes),
  computes('lint', () => checkScript('lint', /on (\d+) files?/)),
  computes('format', () => checkScript('format:check', /on (\d+) files?/)),
  computes('unused', () => checkScript('unused', null)),
  computes('unit', () => runSuite(['pure', 'unit'], 1500)),
  computes('validation', () => runSuite(['validation'], 1200)),
  drives('browser', () => runSuite(['browser'], 1500), ['chromium']),
  drives('e2e', () => runSuite(['e2e'], 1800), ['build', 'chromium']),
];

/** The stages picked by name, with what they need, in order; every stage where none is named. */
export function pickStages(names: readonly string[], all: readonly Stage[] = stages): Stage[] {
  const picked = new Set<string>();
  const pick = (name: string): void => {
    const found = all.find((candidate) => candidate.name === name);
    if (found === undefined) {
      throw new RangeError(`No stage is called "${name}". There are: ${all.map((one) => one.name).join(', ')}.`);
    }
    picked.add(name);
    for (const needed of found.needs) pick(needed);
  };
  for (const name of names.length === 0 ? all.map((one) => one.name) : names) pick(name);
  return all.filter(({ name }) => picked.has(name));
}
