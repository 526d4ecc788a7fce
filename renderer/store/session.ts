import { canonicalJson } from '../../shared-types/canonicalJson.ts';
import type { Refusal } from '../../shared-types/errors.ts';
import type { Task } from '../../shared-types/records/task.ts';
import type { PastAnswer } from '../../shared-types/records/window.ts';
import type { KeptResult } from './pastAnswers.ts';
import { arrangedResult } from '../engine/bagMap/arrangedOuting.ts';
import { RefusedError } from '../engine/errors.ts';
import type { ResolvedPlan } from '../engine/plan/resolved.ts';
import { readableTask } from '../engine/records/readableTask.ts';
import type { Missing } from '../engine/records/readableTask.ts';
import type { LeftOut } from '../engine/records/stockOfTask.ts';
import { textOfPlan } from '../engine/records/textOfPlan.ts';
import { pastOf, withAnswer } from './pastAnswers.ts';
import { keepPreferences } from './preferences.ts';
import type { Preferences } from './preferences.ts';
import { ConflictError } from './store.ts';
import type { Store } from './store.ts';

/** An answer of the planner, with what was asked. */
export type { KeptResult } from './pastAnswers.ts';

/** The task under the hand, read from its records. */
export interface TaskAtHand {
  id: string;
  task: Task;
  /** As a file of it would be named. */
  name: string;
  text: string;
  planHash: string;
  plan: ResolvedPlan;
  /** Records that the plan is without, each with the reason. */
  missing: readonly Missing[];
  /** What the planner does without, by rule. */
  leftOut: readonly LeftOut[];
}

export interface SessionState {
  preferences: Preferences;
  /** Null where none is open, or where it has not been read yet: `reading` tells. */
  atHand: TaskAtHand | null;
  reading: boolean;
  /** The answer to the task as it stands, with its lines in the bags in which a person laid them. */
  result: KeptResult | null;
  /** The same as the planner gave it. */
  planned: KeptResult | null;
  /** The answer to an earlier state of it, where there is none to this one. */
  former: KeptResult | null;
  /** The last answers of the task, the newest first, to be held against each other. */
  past: readonly PastAnswer[];
  /** A file that was not taken, and why; what was kept stays as it was. */
  refused: { name: string; refusal: Refusal; times: number } | null;
}

export interface Session {
  state(): SessionState;
  subscribe(listener: () => void): () => void;
  openTask(id: string): void;
  closeTask(): void;
  refuse(name: string, refusal: Refusal): void;
  dismissRefusal(): void;
  /** Kept for the task only where `planHash` is still that of the task at hand. */
  keepResult(planHash: string, kept: KeptResult): void;
  prefer(change: Partial<Preferences>): void;
}

/** What any failure to take a file says, in the words of a refusal. */
export function refusalOf(error: unknown): Refusal {
  if (error instanceof RefusedError) return error.refusal;
  return { code: 'internal', message: error instanceof Error ? error.message : String(error) };
}

type Answers = Pick<SessionState, 'result' | 'planned' | 'former' | 'past'>;

const noAnswers: Answers = { result: null, planned: null, former: null, past: [] };

const taskTables = ['tasks', 'outings', 'steps', 'interfaces', 'sites', 'shelves', 'items'] as const;

async function sha256(text: string): Promise<string> {
  const digest = await crypto.subtle.digest('SHA-256', new TextEncoder().encode(text));
  return [...new Uint8Array(digest)].map((byte) => byte.toString(16).padStart(2, '0')).join('');
}

export function createSession(store: Store): Session {
  const listeners = new Set<() => void>();
  const set = (change: Partial<SessionState>): void => {
    state = { ...state, ...change };
    for (const listener of listeners) listener();
  };
  const preferences = keepPreferences(store, {
    changed: () => {
      set({ preferences: preferences.state() });
      readSoon();
    },
    refused: (error) => refuse('Settings', refusalOf(error)),
  });
  let state: SessionState = {
    preferences: preferences.state(),
    atHand: null,
    reading: false,
    ...noAnswers,
    refused: null,
  };

  const rows = <T extends (typeof taskTables)[number]>(name: T) => [...store.table(name).state().rows.values()];
  const ready = (): boolean => [...taskTables, 'results' as const].every((name) => store.table(name).state().ready);

  /** The planner's answer as its lines lie; the same object where neither has changed, so that sheets see none. */
  const asLaid = (atHand: TaskAtHand, planned: KeptResult): KeptResult => {
    const laid = new Map(
      rows('outings').flatMap(({ task, code, bagMap }) => (task === atHand.id && bagMap ? [[code, bagMap]] : [])),
    );
    const key = JSON.stringify([...laid]);
    if (lastLaid?.of !== planned || lastLaid.plan !== atHand.plan || lastLaid.key !== key) {
      const result = arrangedResult(atHand.plan, planned.result, (outing) => laid.get(outing) ?? []);
      lastLaid = {
        ...{ of: planned, plan: atHand.plan, key },
        kept: result === planned.result ? planned : { ...planned, result },
      };
    }
    return lastLaid.kept;
  };
  let lastLaid: { of: KeptResult; plan: ResolvedPlan; key: string; kept: KeptResult } | null = null;

  const answers = (atHand: TaskAtHand | null): Answers => {
    // An answer on its way to the store is newer than what the store has.
    if (atHand !== null && underWay.get(atHand.id)?.planHash === atHand.planHash) {
      const { planned, former, past } = state;
      return { result: planned === null ? null : asLaid(atHand, planned), planned, former, past };
    }
    const kept = atHand === null ? undefined : store.table('results').state().rows.get(atHand.id);
    if (kept === undefined || atHand === null) return noAnswers;
    const { id: _id, rev: _rev, planHash, past, ...answer } = kept;
    const isOfThis = planHash === atHand.planHash;
    // The same answer stays the same object, so that sheets see no change where there is none.
    const held = isOfThis ? state.planned : state.former;
    const one = held !== null && isSameAnswer(held, answer) ? held : answer;
    const known = past ?? (isOfThis ? [pastOf(atHand.plan, planHash, one)] : []);
    return isOfThis
      ? { result: asLaid(atHand, one), planned: one, former: null, past: known }
      : { result: null, planned: null, former: one, past: known };
  };

  const read = async (turn: number): Promise<void> => {
    const id = preferences.state().task;
    const task = id === null ? undefined : store.table('tasks').state().rows.get(id);
    if (task === undefined) {
      if (ready()) set({ atHand: null, reading: false, ...noAnswers });
      return;
    }
    const found = readableTask({
      task,
      outings: rows('outings').filter((outing) => outing.task === task.id),
      steps: rows('steps').filter((step) => step.task === task.id),
      interfaces: rows('interfaces'),
      sites: rows('sites'),
      shelves: rows('shelves'),
      items: rows('items').filter((item) => task.shelves.includes(item.shelf)),
    });
    const former = state.atHand?.id === task.id ? state.atHand : null;
    const text = textOfPlan(found.plan);
    const same = former !== null && former.text === text && sameMissing(former.missing, found.missing);
    const planHash = same ? former.planHash : await sha256(text);
    // A later turn has newer records; this one's answer would set the screen back.
    if (turn !== lastTurn) return;
    const atHand: TaskAtHand =
      same && former.task === task
        ? former
        : {
            id: task.id,
            task,
            name: `${task.code}.json`,
            text,
            planHash,
            // The same plan stays the same object: what was judged of it stays judged.
            plan: same ? former.plan : found.resolved,
            missing: found.missing,
            leftOut: found.leftOut,
          };
    set({ atHand, reading: false, ...answers(atHand) });
  };

  let lastTurn = 0;
  let waiting = false;
  const readSoon = (): void => {
    if (waiting || !ready()) return;
    waiting = true;
    setTimeout(() => {
      waiting = false;
      lastTurn += 1;
      const turn = lastTurn;
      read(turn).catch((error: unknown) => {
        set({ reading: false, atHand: null });
        refuse('The task', refusalOf(error));
      });
    });
  };
  for (const name of taskTables) store.table(name).subscribe(readSoon);
  store.table('results').subscribe(() => (state.atHand === null ? readSoon() : set(answers(state.atHand))));

  const refuse = (name: string, refusal: Refusal): void =>
    set({ refused: { name, refusal, times: (state.refused?.times ?? 0) + 1 } });

  /** By task: the answers of this window that are not kept yet, for the plan of the last of them. */
  const underWay = new Map<string, { planHash: string; left: number }>();
  let lastKept: Promise<void> = Promise.resolve();

  /** One after the other, so that of two answers given at once the later is the one that is kept last. */
  const keepInTurn = (taskId: string, planHash: string, kept: KeptResult, answer: PastAnswer): void => {
    const here = underWay.get(taskId) ?? { planHash, left: 0 };
    underWay.set(taskId, Object.assign(here, { planHash, left: here.left + 1 }));
    const ended = (): void => {
      here.left -= 1;
      if (here.left > 0) return;
      underWay.delete(taskId);
      if (state.atHand?.id === taskId && isKept(taskId, answer)) set(answers(state.atHand));
    };
    lastKept = lastKept.then(async () => keep(taskId, planHash, kept, answer)).then(ended, ended);
  };

  /** Whether the store has it: one that it refused stays on the screen, and the save state says so. */
  const isKept = (taskId: string, { plannedAt }: PastAnswer): boolean =>
    store
      .table('results')
      .state()
      .rows.get(taskId)
      ?.past?.some((past) => past.plannedAt === plannedAt) ?? false;

  const keep = async (taskId: string, planHash: string, kept: KeptResult, answer: PastAnswer): Promise<void> => {
    for (let left = 5; left > 0; left -= 1) {
      const before = store.table('results').state().rows.get(taskId);
      const rev = before?.rev ?? 0;
      const past = withAnswer(before?.past ?? state.past, answer);
      try {
        await store.commit({
          action: 'keep-result',
          title: 'Planned bag',
          undoable: false,
          proposals: [{ table: 'results', put: { ...kept, id: taskId, rev, planHash, past } }],
        });
        return;
      } catch (error) {
        // An answer of another window came between: the later one is kept.
        if (!(error instanceof ConflictError)) throw error;
      }
    }
  };

  return {
    state: () => state,
    subscribe(listener) {
      listeners.add(listener);
      return () => listeners.delete(listener);
    },
    openTask(id) {
      set({ reading: true, refused: null });
      preferences.prefer({ task: id });
      readSoon();
    },
    closeTask() {
      preferences.prefer({ task: null });
    },
    refuse,
    dismissRefusal: () => set({ refused: null }),
    keepResult(planHash, kept) {
      const { atHand } = state;
      // The task may have changed while the answer was on its way.
      if (atHand === null || atHand.planHash !== planHash) return;
      // Seen at once; whether it is kept is the save state's to say.
      const answer = pastOf(atHand.plan, planHash, kept);
      const past = withAnswer(state.past, answer);
      set({ planned: kept, result: asLaid(atHand, kept), former: null, past });
      keepInTurn(atHand.id, planHash, kept, answer);
    },
    prefer: preferences.prefer,
  };
}

/** Read back from where it is kept, an answer is another object and the same answer. */
function isSameAnswer(held: KeptResult, read: KeptResult): boolean {
  return held.result === read.result || canonicalJson(held) === canonicalJson(read);
}

function sameMissing(one: readonly Missing[], other: readonly Missing[]): boolean {
  return JSON.stringify(one) === JSON.stringify(other);
}
