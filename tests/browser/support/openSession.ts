/** The real store and session on a journal in memory. */
import { readPlan } from '../../../renderer/engine/plan/readPlan.ts';
import { recordsOfPlan } from '../../../renderer/engine/records/recordsOfPlan.ts';
import { createStore } from '../../../renderer/store/createStore.ts';
import { createSession } from '../../../renderer/store/session.ts';
import type { Session, TaskAtHand } from '../../../renderer/store/session.ts';
import type { Proposal, Store } from '../../../renderer/store/store.ts';
import { memoryJournal } from '../../support/memoryJournal.ts';
import type { MemoryJournal } from '../../support/memoryJournal.ts';

const now = (): Date => new Date();

/** Resolves once the session is as asked; says what it waited for where that does not come. */
export async function until(what: string, is: () => boolean): Promise<void> {
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
  await until('the task at hand', () => session.state().atHand?.id === task.id);
  const { atHand } = session.state();
  if (atHand === null) throw new Error('the task was closed');
  return atHand;
}
