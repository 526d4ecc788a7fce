import { expect, test } from 'vitest';
import { planFrom } from '../../renderer/engine/plan/readPlan.ts';
import { judgeStep } from '../../renderer/engine/stack/judgeStep.ts';
import { SettingPanel } from '../../renderer/features/steps/SettingPanel.tsx';
import { all, put } from '../support/editJson.ts';
import { smallPlan } from '../support/smallPlan.ts';
import { shown } from './shown.tsx';

/** What the panel of the step that tightens says of turning the fastener home. */
async function turningSaid(run: string, swingDeg: number): Promise<Record<string, string>> {
  const given = smallPlan();
  const index = given.steps.findIndex(({ action }) => action === 'tighten');
  all(put('catalog.fasteners[0].threadRun', run), put(`steps[${index}].access.swingDeg`, swingDeg))(given);
  const plan = planFrom(given);
  const step = plan.steps[index];
  const written = plan.source.steps[index];
  if (step === undefined || written === undefined) throw new Error('The small plan has no step that tightens.');
  const judgement = judgeStep(plan, step);
  const { container } = await shown(
    <SettingPanel plan={plan} step={step} written={written} stack={judgement.best} judgement={judgement} units="si" />,
  );
  const names = [...container.querySelectorAll('dt')].map((name) => name.textContent ?? '');
  const values = [...container.querySelectorAll('dd')].map((value) => value.textContent ?? '');
  return Object.fromEntries(names.map((name, at) => [name, values[at] ?? '']));
}

// 3/8-24: half an inch is 12 turns, 4320°.
test('strokes are whole, and an exact number of them gains none', async () => {
  expect(await turningSaid('0.5 in', 60)).toMatchObject({ 'turns to seat': '12', strokes: '72' });
});

test('a last stroke that is short counts as one', async () => {
  expect(await turningSaid('0.51 in', 60)).toMatchObject({ 'turns to seat': '12.2', strokes: '74' });
});
