import { ensureBrowser } from './browser.ts';
import { checkScript, checkTypes } from './checks.ts';
import type { Result } from './result.ts';
import { runSuite } from './suite.ts';

export interface Stage {
  name: string;
  /** Stages that must have passed before this one makes sense; picking this one picks them too. */
  needs: readonly string[];
  run: () => Promise<Result>;
}

const stage = (name: string, run: () => Promise<Result>, needs: readonly string[] = []): Stage => ({
  name,
  needs,
  run,
});

/** Everything there is to check, in order: the quick and general first. */
export const stages: readonly Stage[] = [
  stage('types', checkTypes),
  stage('lint', () => checkScript('lint', /on (\d+) files?/)),
  stage('format', () => checkScript('format:check', /on (\d+) files?/)),
  stage('layers', () => checkScript('layers', /\((\d+) modules/)),
  stage('unused', () => checkScript('unused', null)),
  stage('build', () => checkScript('build', null, 300)),
  stage('chromium', ensureBrowser),
  stage('unit', () => runSuite(['pure', 'unit'], 900)),
  stage('validation', () => runSuite(['validation'], 600)),
  stage('browser', () => runSuite(['browser'], 900), ['chromium']),
  stage('e2e', () => runSuite(['e2e'], 1200), ['build', 'chromium']),
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
