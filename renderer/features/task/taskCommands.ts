import { outingAsking } from '../outings/outingCommands.ts';
import type { OutingWish } from '../outings/outingCommands.ts';
import type { Command } from '../palette/command.ts';
import { goTo } from '../session/usePlace.ts';
import { siteAsking } from '../sites/siteCommands.ts';
import { stepAsking } from '../steps/stepCommands.ts';
import type { StepWish } from '../steps/stepCommands.ts';
import type { Place } from '../../store/place.ts';
import { taskAsking } from './taskAsking.ts';

/** To the sheet that does it, unless it is there already with something in hand. */
function there(at: Place['at'], place: Place): void {
  if (place.at !== at) goTo({ at });
}

/** What the finder offers of a task's steps, outings and facts, and of the sites, from wherever the person is. */
export function taskCommands({ hasTask, place }: { hasTask: boolean; place: Place }): Command[] {
  const needsTask = hasTask ? null : 'open a task first';
  const onSteps = needsTask ?? (place.at === 'steps' ? null : 'go to the steps first');
  const onOutings = needsTask ?? (place.at === 'outings' ? null : 'go to the outings first');
  const act = (id: string, title: string, rest: Pick<Command, 'run' | 'hindered'> & { keys?: string[] }): Command => ({
    kind: 'Do',
    keys: null,
    id,
    title,
    ...rest,
  });
  const step = (wish: StepWish, hindered: string | null) => ({
    hindered,
    run: (): void => {
      there('steps', place);
      stepAsking.ask(wish);
    },
  });
  const outing = (wish: OutingWish, hindered: string | null) => ({
    hindered,
    run: (): void => {
      there('outings', place);
      outingAsking.ask(wish);
    },
  });
  const site = (wish: 'add-site' | 'add-interface') => ({
    hindered: null,
    run: (): void => {
      there('sites', place);
      siteAsking.ask(wish);
    },
  });
  return [
    act('add-step', 'Add step', { ...step('add', needsTask), keys: ['a', 's'] }),
    act('edit-step', 'Edit the step in hand', { ...step('edit', onSteps), keys: ['e', 's'] }),
    act('copy-step', 'Copy the step in hand', step('copy', onSteps)),
    act('step-up', 'Move the step in hand up', step('up', onSteps)),
    act('step-down', 'Move the step in hand down', step('down', onSteps)),
    act('step-to-number', 'Move the steps chosen, or the one in hand, to a number…', {
      ...step('to-number', onSteps),
      keys: ['m', 's'],
    }),
    act('usual-steps', 'Add usual steps: off, on, torqued in passes…', {
      ...step('usual', needsTask),
      keys: ['a', 'u'],
    }),
    act('failure-steps', 'Add what is done if the steps chosen, or the one in hand, fail…', {
      ...step('failures', onSteps),
      keys: ['a', 'i'],
    }),
    act('bring-steps', 'Bring steps in from a table…', step('bring-in', needsTask)),
    act('save-steps', 'Save steps as a file…', step('save-file', needsTask)),
    act('remove-step', 'Remove the step in hand…', step('remove', onSteps)),
    act('add-outing', 'Add outing', { ...outing('add', needsTask), keys: ['a', 'o'] }),
    act('edit-outing', 'Edit the outing in hand', { ...outing('edit', onOutings), keys: ['e', 'o'] }),
    act('outing-up', 'Move the outing in hand up', outing('up', onOutings)),
    act('outing-down', 'Move the outing in hand down', outing('down', onOutings)),
    act('draw-all-outings', 'Draw the courses of all outings', outing('draw-all', needsTask)),
    act('draw-one-outing', 'Draw the course of the outing in hand alone', outing('draw-one', needsTask)),
    act('outing-problems', 'To the problems of the outing in hand', outing('to-problems', onOutings)),
    act('outing-proposals', 'To the proposals for the outing in hand', outing('to-proposals', onOutings)),
    act('remove-outing', 'Remove the outing in hand…', outing('remove', onOutings)),
    act('add-site', 'Add site', { ...site('add-site'), keys: ['a', 'l'] }),
    act('add-interface', 'Add interface to the site in hand', site('add-interface')),
    act('task-facts', 'Edit the task’s facts', {
      hindered: needsTask,
      keys: ['e', 'f'],
      run: () => {
        there('front', place);
        taskAsking.ask('edit');
      },
    }),
  ];
}
