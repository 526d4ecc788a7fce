import { expect, it } from 'vitest';
import { asText, shownPlan } from './fixtures/plans.ts';
import { openTask } from './support/openTask.tsx';

const plan = { ...shownPlan(), places: [{ id: 'rock', name: 'Landing rock' }] };

it('the text of the plan is what the forms have kept', async () => {
  const { session } = await openTask(plan, '#/steps');
  expect(JSON.parse(session.state().atHand?.text ?? '')).toMatchObject({ steps: JSON.parse(asText(plan)).steps });
});
