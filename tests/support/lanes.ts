import type { Stage } from './stages.ts';

/**
 * Runs stages in their lanes: those of a lane one after the other in the order given, the lanes beside each other. A
 * stage is begun when those it needs have ended too, in whichever lane they are; `begin` gets what they came to.
 */
export async function runInLanes<Done>(
  stages: readonly Stage[],
  begin: (stage: Stage, needed: readonly Done[]) => Promise<Done>,
): Promise<Done[]> {
  const lanes = new Map<string, Promise<unknown>>();
  const begun = new Map<string, Promise<Done>>();
  for (const stage of stages) {
    const before = lanes.get(stage.lane);
    const needed = stage.needs.flatMap((name) => begun.get(name) ?? []);
    const doing = Promise.all([before, ...needed]).then(async () => begin(stage, await Promise.all(needed)));
    lanes.set(stage.lane, doing);
    begun.set(stage.name, doing);
  }
  return Promise.all(begun.values());
}
