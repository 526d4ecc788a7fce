import { useMemo } from 'react';
import type { Host } from '../../../shared-types/host.ts';
import { planBytesMax } from '../../engine/plan/readPlan.ts';
import { readText } from '../../host/readText.ts';
import { dayText } from '../../store/clock.ts';
import { refusalOf } from '../../store/session.ts';
import type { Session } from '../../store/session.ts';
import type { Planning } from '../bag/planning.ts';
import { resultCsv, resultJson } from '../bag/resultFiles.ts';
import type { DemoPlan } from '../first-page/demoPlans.ts';
import { goTo } from './usePlace.ts';

export interface WindowDeeds {
  openFile: () => void;
  openDropped: (files: File[]) => void;
  openDemo: (demo: DemoPlan) => void;
  saveDemo: (demo: DemoPlan) => void;
  closePlan: () => void;
  plan: () => void;
  saveResult: (format: 'json' | 'csv') => void;
}

/** What the window does beyond showing: everything that can go wrong ends in the list of faults, never in silence. */
export function useDeeds(session: Session, planning: Planning, host: Host): WindowDeeds {
  return useMemo(() => {
    const attempt = (what: string, work: () => Promise<void>): void => {
      work().catch((error: unknown) => session.refuse(what, refusalOf(error)));
    };
    const open = (name: string, text: string): void => {
      if (session.openPlan(name, text)) goTo({ at: 'steps' });
    };
    return {
      openFile: () =>
        attempt('The file', async () => {
          const opened = await host.openText({ extensions: ['json'], maxBytes: planBytesMax });
          if (opened !== null) open(opened.name, opened.text);
        }),
      openDropped: (files) => {
        const [file] = files;
        if (file === undefined) return;
        if (files.length > 1) {
          const message = `${files.length} files were dropped; one plan file is opened at a time`;
          session.refuse('The files', { code: 'usage', message });
          return;
        }
        attempt(file.name, async () => {
          const { name, text } = await readText(file, planBytesMax);
          open(name, text);
        });
      },
      openDemo: (demo) => attempt(demo.name, async () => open(demo.fileName, await demo.text())),
      saveDemo: (demo) =>
        attempt(demo.name, async () => {
          const bytes = new TextEncoder().encode(await demo.text());
          await host.saveFile({ name: demo.fileName, mediaType: 'application/json', bytes });
        }),
      closePlan: () => {
        session.closePlan();
        goTo({ at: 'first' });
      },
      plan: () => {
        const { result } = session.state();
        planning.start({ minimised: result?.minimised ?? 'mass', timeLimitS: result?.timeLimitS ?? null });
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
    };
  }, [session, planning, host]);
}
