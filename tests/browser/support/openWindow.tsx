import '@mantine/core/styles.layer.css';
import '../../../renderer/styles/layers.css';
import '../../../renderer/styles/base.css';
import { render } from 'vitest-browser-react';
import type { BagResult } from '../../../shared-types/bag.ts';
import type { FileToSave, Host, OpenedText } from '../../../shared-types/host.ts';
import { App } from '../../../renderer/App.tsx';
import { readPlan } from '../../../renderer/engine/plan/readPlan.ts';
import { recordsOfPlan } from '../../../renderer/engine/records/recordsOfPlan.ts';
import { createPlanning } from '../../../renderer/features/bag/planning.ts';
import type { Progress, StartPlanning } from '../../../renderer/features/bag/planning.ts';
import { createStore } from '../../../renderer/store/createStore.ts';
import { createSession } from '../../../renderer/store/session.ts';
import type { Session, TaskAtHand } from '../../../renderer/store/session.ts';
import type { Proposal, Store } from '../../../renderer/store/store.ts';
import { memoryJournal } from '../../support/memoryJournal.ts';
import type { MemoryJournal } from '../../support/memoryJournal.ts';

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
  };
}

/** A planner under the test's hand: it answers when it is told to. */
function fakePlanner() {
  const runs: {
    answer: (result: BagResult) => void;
    fail: (error: unknown) => void;
    progress: (progress: Progress) => void;
    cancelled: boolean;
  }[] = [];
  const start: StartPlanning = () => {
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

/** Resolves once the session is as asked; says what it waited for where that does not come. */
export async function until(session: Session, what: string, is: () => boolean): Promise<void> {
  const deadline = Date.now() + 10_000;
  while (!is()) {
    if (Date.now() > deadline) throw new Error(`${what} did not come`);
    await new Promise((resolve) => setTimeout(resolve, 5));
  }
}

/** A store and a session on a journal of a test, opened. */
export async function openSession(journal: MemoryJournal = memoryJournal()) {
  const store = createStore({ journal: journal.window(), now });
  const session = createSession(store);
  await store.open();
  if (store.opening().kind !== 'ready') throw new Error(`not ready: ${JSON.stringify(store.opening())}`);
  return { journal, store, session };
}

/** Keeps a plan's text as a task of its own and takes it in hand, as bringing a file in does. */
export async function keepPlan(store: Store, session: Session, text: string): Promise<TaskAtHand> {
  const plan = readPlan(text).source;
  const { shelf, items, task, outings, steps } = recordsOfPlan(plan, {
    shelfName: plan.task?.name ?? 'Shelf',
    taskNamed: 'task',
    newId: store.newId,
  });
  const proposals: Proposal[] = [
    { table: 'shelves', put: shelf },
    ...items.map((put): Proposal => ({ table: 'items', put })),
    { table: 'tasks', put: task },
    ...outings.map((put): Proposal => ({ table: 'outings', put })),
    ...steps.map((put): Proposal => ({ table: 'steps', put })),
  ];
  await store.commit({ action: 'import', title: 'Bring in', proposals });
  session.openTask(task.id);
  await until(session, 'the task at hand', () => session.state().atHand?.id === task.id);
  const { atHand } = session.state();
  if (atHand === null) throw new Error('the task was closed');
  return atHand;
}

export async function openWindow(options: { files?: OpenedText[]; journal?: MemoryJournal } = {}) {
  window.location.hash = '#/';
  const { journal, store, session } = await openSession(options.journal);
  const planner = fakePlanner();
  const planning = createPlanning(session, planner.start, now);
  const host = fakeHost(journal, options.files);
  const screen = await render(<App store={store} session={session} planning={planning} host={host} now={now} />);
  const bringIn = (text: string): Promise<TaskAtHand> => keepPlan(store, session, text);
  return { screen, store, session, planning, planner, host, journal, bringIn };
}
