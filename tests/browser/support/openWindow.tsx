import { noSnapshots } from './noSnapshots.ts';
import '../../../renderer/styles/layers.css';
import '@mantine/core/styles.layer.css';
import '../../../renderer/styles/base.css';
import { render } from 'vitest-browser-react';
import type { BagResult } from '../../../shared-types/bag.ts';
import type { FileToSave, Host, OpenedText } from '../../../shared-types/host.ts';
import { App } from '../../../renderer/App.tsx';
import { createPlanning } from '../../../renderer/features/bag/planning.ts';
import type { Progress, StartPlanning } from '../../../renderer/features/bag/planning.ts';
import { ReasonsContext } from '../../../renderer/features/bagReasons/useReasons.ts';
import type { StartFindingReasons } from '../../../renderer/features/bagReasons/useReasons.ts';
import type { TaskAtHand } from '../../../renderer/store/session.ts';
import type { MemoryJournal } from '../../support/memoryJournal.ts';
import { keepPlan, openSession } from './openSession.ts';

const now = (): Date => new Date();

/** A host that hands over the files of a test and keeps what is saved. */
function fakeHost(journal: MemoryJournal, files: OpenedText[] = []): Host & { saved: FileToSave[] } {
  const saved: FileToSave[] = [];
  return {
    saved,
    journal: journal.window(),
    info: async () => ({ kind: 'browser-window', version: '0.0.0-test', dataFolder: '/test/data' }),
    openText: async () => files.shift() ?? null,
    saveFile: async (file) => {
      saved.push(file);
      return true;
    },
    makePdf: async () => new Uint8Array(),
    printPdf: async () => ({ opened: true, address: null }),
    snapshots: noSnapshots(),
  };
}

/** A planner under the test's hand: it answers when it is told to. */
function fakePlanner() {
  const runs: {
    answer: (result: BagResult) => void;
    fail: (error: unknown) => void;
    progress: (progress: Progress) => void;
    cancelled: boolean;
    /** What was asked for. */
    options: Parameters<StartPlanning>[1];
  }[] = [];
  const start: StartPlanning = (_text, options) => {
    const listeners: ((progress: Progress) => void)[] = [];
    let settle: { resolve: (result: BagResult) => void; reject: (error: unknown) => void } | undefined;
    const result = new Promise<BagResult>((resolve, reject) => {
      settle = { resolve, reject };
    });
    const run = {
      answer: (answer: BagResult) => settle?.resolve(answer),
      fail: (error: unknown) => settle?.reject(error),
      progress: (progress: Progress) => listeners.forEach((listener) => listener(progress)),
      cancelled: false,
      options,
    };
    runs.push(run);
    return {
      result,
      onProgress: (listener) => void listeners.push(listener),
      cancel: () => {
        run.cancelled = true;
        settle?.reject(new Error('cancelled'));
      },
    };
  };
  return { start, runs };
}

export interface OpenWindowOptions {
  files?: OpenedText[];
  journal?: MemoryJournal;
  /** Nobody finds reasons where none is given. */
  reasons?: StartFindingReasons;
  /** In the place of the planner under the test's hand. */
  startPlanning?: StartPlanning;
}

export async function openWindow(options: OpenWindowOptions = {}) {
  window.location.hash = '#/';
  const { journal, store, session } = await openSession(options.journal);
  const planner = fakePlanner();
  const planning = createPlanning(session, options.startPlanning ?? planner.start, now);
  const host = fakeHost(journal, options.files);
  const screen = await render(
    <ReasonsContext value={options.reasons ?? null}>
      <App store={store} session={session} planning={planning} host={host} now={now} />
    </ReasonsContext>,
  );
  const bringIn = (text: string): Promise<TaskAtHand> => keepPlan(store, session, text);
  return { screen, store, session, planning, planner, host, journal, bringIn };
}
