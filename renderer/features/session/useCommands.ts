import { useMemo } from 'react';
import type { ResolvedPlan } from '../../engine/plan/resolved.ts';
import type { Place } from '../../store/place.ts';
import type { Session } from '../../store/session.ts';
import { recordCommands } from '../asrun/recordAsking.ts';
import { bagCommands } from '../bag/bagCommands.ts';
import { benchCommands } from '../bench/benchCommands.ts';
import type { Planning } from '../bag/planning.ts';
import { calloutCommands } from '../callouts/calloutAsking.ts';
import { catalogCommands } from '../catalog/catalogCommands.ts';
import { handbookCommands } from '../handbook/handbookCommands.ts';
import { demoPlans } from '../first-page/demoPlans.ts';
import type { Command } from '../palette/command.ts';
import { allCommands } from '../palette/commands.ts';
import type { Situation } from '../palette/commands.ts';
import { taskCommands } from '../task/taskCommands.ts';
import { kitCommands } from '../kits/kitCommands.ts';
import { labelCommands } from '../labels/labelAsking.ts';
import { packCommands } from '../pack/packCommands.ts';
import { revisionCommands } from '../revisions/revisionAsking.ts';
import { outAndBackCommands } from '../record/recordAsking.ts';
import { snapshotCommands } from '../snapshots/snapshotCommands.ts';
import { watchOutCommands } from '../watchOuts/watchOutAsking.ts';
import type { WindowDeeds } from './useDeeds.ts';
import { goTo } from './usePlace.ts';

/** What may lie over the sheet. */
export type OverSheet = 'palette' | 'keys' | 'settings';

interface Given {
  around: {
    session: Session;
    planning: Planning;
    deeds: WindowDeeds;
    place: Place;
    open: (over: OverSheet) => void;
    saveAgain: () => void;
  };
  plan: ResolvedPlan | null;
  now: Situation;
}

/** From sheet to sheet the chosen outing goes along. */
function withOuting(to: Place, from: Place): Place {
  const takes = to.at === 'bag' || to.at === 'manifest' || to.at === 'cards' || to.at === 'outings' || to.at === 'pack';
  const gives = 'outing' in from;
  return !takes || !gives || from.outing === undefined ? to : { outing: from.outing, ...to };
}

/** To the next step in the plan's order; from elsewhere to the first. */
function walk(plan: ResolvedPlan | null, place: Place, by: 1 | -1): void {
  if (plan === null) return;
  const here = place.at === 'steps' ? plan.steps.findIndex(({ id }) => id === place.step) : -1;
  const next = plan.steps[place.at === 'steps' ? Math.max(here, 0) + by : 0];
  if (next !== undefined) goTo({ at: 'steps', step: next.id }, place.at === 'steps' ? 'replace' : 'push');
}

/** The commands of the window, bound to what they act on. */
export function useCommands({ around, plan, now }: Given): Command[] {
  const { session, planning, deeds, place, open, saveAgain } = around;
  const { hasTask, notPlannable, undo, redo, hasResult, planning: isPlanning, notSaved } = now;
  return useMemo(
    () => [
      ...allCommands(
        {
          go: (to) => goTo(withOuting(to, place)),
          walkStep: (by) => walk(plan, place, by),
          bringFileIn: deeds.bringFileIn,
          demos: demoPlans.map((demo) => ({
            id: demo.id,
            name: demo.name,
            bringIn: () => deeds.bringDemoIn(demo),
            save: () => deeds.saveDemo(demo),
          })),
          saveTask: deeds.saveTask,
          closeTask: deeds.closeTask,
          undo: deeds.undo,
          redo: deeds.redo,
          plan: deeds.plan,
          cancelPlanning: planning.cancel,
          saveResult: deeds.saveResult,
          saveAgain,
          prefer: session.prefer,
          find: () => open('palette'),
          keys: () => open('keys'),
          settings: () => open('settings'),
        },
        { hasTask, notPlannable, undo, redo, hasResult, planning: isPlanning, notSaved },
      ),
      ...taskCommands({ hasTask, place }),
      ...bagCommands({ hasTask, hasResult, planning: isPlanning, place }),
      ...calloutCommands(hasTask),
      ...recordCommands(hasTask),
      ...catalogCommands(),
      ...kitCommands(),
      ...snapshotCommands(),
      ...labelCommands(),
      ...packCommands(hasTask),
      ...revisionCommands(hasTask),
      ...outAndBackCommands(hasTask),
      ...watchOutCommands(),
      ...handbookCommands(),
      ...benchCommands(place),
    ],
    [
      session,
      planning,
      deeds,
      place,
      open,
      saveAgain,
      plan,
      hasTask,
      notPlannable,
      undo,
      redo,
      hasResult,
      isPlanning,
      notSaved,
    ],
  );
}
