import { useMemo } from 'react';
import type { Host } from '../../../shared-types/host.ts';
import { carriedToSteps } from '../../engine/watchOuts/index.ts';
import { planBytesMax } from '../../engine/plan/readPlan.ts';
import { readText } from '../../host/readText.ts';
import { dayText } from '../../store/clock.ts';
import { refusalOf } from '../../store/session.ts';
import type { Session } from '../../store/session.ts';
import type { Store } from '../../store/store.ts';
import { askedLast } from '../bag/asked.ts';
import type { Planning } from '../bag/planning.ts';
import { resultCsv, resultJson } from '../bag/resultFiles.ts';
import type { DemoPlan } from '../first-page/demoPlans.ts';
import { planFile } from '../import/planFile.ts';
import { refuseUndo } from './refuseUndo.ts';
import { goTo } from './usePlace.ts';

export interface WindowDeeds {
  bringFileIn: () => void;
  bringDroppedIn: (files: File[]) => void;
  bringDemoIn: (demo: DemoPlan) => void;
  saveDemo: (demo: DemoPlan) => void;
  openTask: (id: string) => void;
  closeTask: () => void;
  /** The task at hand as a plan file. */
  saveTask: () => void;
  plan: () => void;
  saveResult: (format: 'json' | 'csv') => void;
  undo: () => void;
  redo: () => void;
}

export interface FileAtTheDoor {
  name: string;
  text: string;
}

interface Around {
  store: Store;
  session: Session;
  planning: Planning;
  host: Host;
  /** Shows what bringing the file in would change. */
  atTheDoor: (file: FileAtTheDoor) => void;
}

/** What the window does beyond showing: everything that can go wrong ends in the list of faults, never in silence. */
export function useDeeds({ store, session, planning, host, atTheDoor }: Around): WindowDeeds {
  return useMemo(() => {
    const attempt = (what: string, work: () => Promise<void>): void => {
      work().catch((error: unknown) => session.refuse(what, refusalOf(error)));
    };
    return {
      bringFileIn: () =>
        attempt('The file', async () => {
          const opened = await host.openText({ extensions: ['json'], maxBytes: planBytesMax });
          if (opened !== null) atTheDoor(opened);
        }),
      bringDroppedIn: (files) => {
        const [file] = files;
        if (file === undefined) return;
        if (files.length > 1) {
          const message = `${files.length} files were dropped; one plan file is brought in at a time`;
          session.refuse('The files', { code: 'usage', message });
          return;
        }
        attempt(file.name, async () => atTheDoor(await readText(file, planBytesMax)));
      },
      bringDemoIn: (demo) =>
        attempt(demo.name, async () => atTheDoor({ name: demo.fileName, text: await demo.text() })),
      saveDemo: (demo) =>
        attempt(demo.name, async () => {
          const bytes = new TextEncoder().encode(await demo.text());
          await host.saveFile({ name: demo.fileName, mediaType: 'application/json', bytes });
        }),
      openTask: (id) => {
        session.openTask(id);
        goTo({ at: 'front' });
      },
      closeTask: () => {
        session.closeTask();
        goTo({ at: 'first' });
      },
      saveTask: () => {
        const { atHand } = session.state();
        if (atHand === null) return;
        const rows = <T extends 'steps' | 'interfaces' | 'watchOuts'>(name: T) => store.table(name).state().rows;
        const carried = carriedToSteps({
          task: atHand.task,
          steps: rows('steps').values(),
          interfaces: rows('interfaces'),
          records: rows('watchOuts').values(),
        });
        attempt(atHand.name, async () => void (await host.saveFile(planFile(atHand, carried))));
      },
      plan: () => {
        const { result, former } = session.state();
        planning.start(askedLast(result ?? former));
        goTo({ at: 'bag' });
      },
      saveResult: (format) => {
        const { atHand, result } = session.state();
        if (atHand === null || result === null) return;
        const names = { fileName: atHand.name, day: dayText(new Date()) };
        const file =
          format === 'json'
            ? resultJson(atHand.plan, result.result, names)
            : resultCsv(atHand.plan, result.result, names);
        attempt('The result', async () => void (await host.saveFile(file)));
      },
      undo: () => void store.undo().catch((error: unknown) => refuseUndo(session, 'Undo', error)),
      redo: () => void store.redo().catch((error: unknown) => refuseUndo(session, 'Redo', error)),
    };
  }, [store, session, planning, host, atTheDoor]);
}
