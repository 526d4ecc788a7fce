import { expect, it } from 'vitest';
import { planFrom } from '../../../renderer/engine/plan/readPlan.ts';
import { mergeOfPlan } from '../../../renderer/engine/records/mergeOfPlan.ts';
import { planOfTask } from '../../../renderer/engine/records/planOfTask.ts';
import { readPlanFile } from '../../../renderer/engine/records/readPlanFile.ts';
import { recordsOfPlan } from '../../../renderer/engine/records/recordsOfPlan.ts';
import { textOfPlan } from '../../../renderer/engine/records/textOfPlan.ts';
import { carriedToSteps, planWithCarried } from '../../../renderer/engine/watchOuts/index.ts';
import type { WatchOut } from '../../../shared-types/records/watchOut.ts';
import { smallPlan } from '../../support/smallPlan.ts';

function kept() {
  let next = 0;
  const { source } = planFrom(smallPlan());
  const newId = () => `k${(next += 1)}`;
  const made = recordsOfPlan(source, { shelfName: 'Crew', taskNamed: 'T', newId });
  const [first, second] = made.steps;
  if (first === undefined || second === undefined) throw new Error('no steps');
  const steps = [{ ...first, watchOuts: ['Sharp edge.'] }, ...made.steps.slice(1)];
  const watchOut: WatchOut = {
    ...{ id: 'w', rev: 1, text: 'The stud seizes.' },
    ties: [first, second].map(({ id, code }) => ({ to: 'step', step: id, called: code })),
    learned: { in: 'said', on: '2026-11-20', person: 'Q.' },
  };
  const records = { outings: made.outings, steps, interfaces: [], sites: [], shelves: [made.shelf], items: made.items };
  const carried = carriedToSteps({ task: made.task, steps, interfaces: new Map(), records: [watchOut] });
  const { plan } = planOfTask({ ...records, task: made.task });
  return { made, records, watchOut, carried, plan, newId };
}

it('a file says what is carried to its steps, after their own words', () => {
  const { plan, carried } = kept();
  const { plan: read } = readPlanFile(textOfPlan(planWithCarried(plan, carried)), 'task.json');
  expect(read.steps.slice(0, 3).map(({ watchOuts }) => watchOuts)).toEqual([
    ['Sharp edge.', 'The stud seizes.'],
    ['The stud seizes.'],
    undefined,
  ]);
});

it('brought in where the record is kept it changes nothing; where it is not, the words come with the step', () => {
  const { made, records, watchOut, carried, plan, newId } = kept();
  const file = planWithCarried(plan, carried);
  const into = {
    shelf: made.shelf.id,
    shelfName: '',
    task: made.task.id,
    taskNamed: 'T',
    differing: 'take',
    newId,
  } as const;
  const again = mergeOfPlan({ ...records, tasks: [made.task], watchOuts: [watchOut] }, file, into);
  expect(again.puts).toEqual([]);
  expect(again.steps.differ).toEqual([]);
  const elsewhere = mergeOfPlan({ ...records, tasks: [made.task] }, file, into);
  expect(elsewhere.steps.differ.map(({ code }) => code)).toEqual(made.steps.slice(0, 2).map(({ code }) => code));
});
