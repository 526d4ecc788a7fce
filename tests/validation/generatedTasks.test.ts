import { describe, expect, it } from 'vitest';
import { readPlan } from '../../renderer/engine/plan/readPlan.ts';
import { failedRules, holdJob, stackFromIds, stepJob } from '../reference/rules.ts';
import type { Job } from '../reference/rules.ts';
import { readStock } from '../reference/stock.ts';
import { generateTask, taskSizes } from '../reference/tasks/generateTask.ts';
import type { GeneratedTask, TaskSize } from '../reference/tasks/generateTask.ts';

const sizes: TaskSize[] = ['small', 'middle', 'large'];
const tasks: GeneratedTask[] = sizes.flatMap((size) =>
  [true, false].flatMap((structured) =>
    Array.from({ length: size === 'large' ? 4 : 12 }, (_, index) =>
      generateTask({ seed: index + 1, size, structured }),
    ),
  ),
);
const named = ({ seed, size, structured }: GeneratedTask): string => `${size} ${structured} ${seed}`;

describe('a generated task', () => {
  it('is its seed: the same bytes every time', () => {
    for (const task of tasks.filter(({ seed }) => seed < 3)) {
      const { seed, size, structured } = task;
      expect(JSON.stringify(generateTask({ seed, size, structured })), named(task)).toBe(JSON.stringify(task));
    }
    expect(new Set(tasks.map(({ plan }) => JSON.stringify(plan))).size).toBe(tasks.length);
  });

  it('has the steps and items of its size', () => {
    for (const task of tasks) {
      const { sockets, extensions, drivers, torqueTools } = task.plan.catalog;
      const items = sockets.length + extensions.length + drivers.length + torqueTools.length;
      expect(items, named(task)).toBe({ small: 100, middle: 500, large: 2000 }[task.size]);
      expect(task.plan.steps.length, named(task)).toBe(taskSizes[task.size].steps);
    }
  });

  it('has for every step a witness in which the rules find no fault', () => {
    for (const task of tasks) {
      const stock = readStock(task.plan);
      const byStep = new Map(task.witness.map((one) => [one.step, one]));
      for (const step of task.plan.steps) {
        const job = stepJob(task.plan, step);
        const holding = holdJob(task.plan, step);
        const where = `${named(task)} ${step.id}`;
        const faults = (ids: string[] | null | undefined, of: Job | null): string[] => {
          if (of === null) return [];
          const stack = stackFromIds(stock, ids ?? []);
          return stack === null ? ['no stack'] : failedRules(stack, of);
        };
        expect(faults(byStep.get(step.id)?.stack, job), where).toEqual([]);
        expect(faults(byStep.get(step.id)?.hold, holding), `${where} hold`).toEqual([]);
      }
    }
  });

  it('is a plan that can be read', () => {
    for (const task of tasks.filter(({ seed }) => seed < 4))
      expect(() => readPlan(JSON.stringify(task.plan)), named(task)).not.toThrow();
  });
});
