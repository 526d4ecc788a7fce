/** The desk at which an outing is packed: what is kept, what is on its way to the disk, what was read and waits its turn. */
import type { Deed, Doer, OutingEvent, Revision } from '../../../shared-types/records/revision.ts';
import { beginPacking, countedOf, deedRefusal, packOn, scanned, stateOf } from '../../engine/packing/index.ts';
import type { PackingFold, PackState, ScanOutcome } from '../../engine/packing/index.ts';
import type { TagReading } from '../../engine/tag/index.ts';
import type { Done } from '../revisions/appendEvents.ts';

export interface DeskSetup {
  revision: Pick<Revision, 'id' | 'number' | 'hash' | 'content'>;
  outing: string;
  /** What is kept already. */
  kept: readonly OutingEvent[];
  /** Keeps what was done, in its order, all or nothing. */
  append: (done: readonly Done[]) => Promise<readonly OutingEvent[]>;
  /** The clock's claim. */
  at: () => string;
}

/** Why so many pieces of a thing cannot be here, by what is known of earlier outings; null where they can. */
export type Elsewhere = (x: { item: string; counted: number; pieces: number; label?: string }) => string | null;

/** What may change while the desk is used. */
export interface DeskFacts {
  /** Who packs. */
  doer: Doer;
  /** Codes of things by the number on their label. */
  tags: ReadonlyMap<number, string>;
  /** Names of those who counted, under an earlier revision, what is carried over. */
  before: readonly string[];
  elsewhere: Elsewhere;
}

/** Why nothing goes on until someone has seen it. */
export interface Stop {
  word: 'Not counted' | 'NOT SAVED';
  words: string;
}

/** A label that does not say how many, or with how many parts. */
export type Asked = Extract<ScanOutcome, { kind: 'ask' }>;

export interface DeskState {
  packing: PackState;
  /** So many deeds are not on the disk yet. */
  unsaved: number;
  stop: Stop | null;
  asked: Asked | null;
  /** So many codes were read and wait. */
  queued: number;
  /** The bag at hand. */
  bag: string | null;
  /** What was counted last by its label: "R-38, 2 of 3". */
  heard: { text: string; times: number } | null;
}

export interface Desk {
  state(): DeskState;
  subscribe(listener: () => void): () => void;
  know(facts: DeskFacts): void;
  /** The events as they are kept. */
  tell(events: readonly OutingEvent[]): void;
  open(bag: string | null): void;
  /** Does it, or says why it cannot be done. All of them, or none. */
  act(deeds: readonly Deed[], by?: Doer): string | null;
  read(reading: TagReading): void;
  /** The stop was seen, or what was asked is answered or left: what waits goes on. */
  goOn(): void;
  /** Once nothing is on its way any more. */
  settled(): Promise<void>;
}

export function createDesk(setup: DeskSetup): Desk {
  const { revision, outing, append, at } = setup;
  const listeners = new Set<() => void>();
  let facts: DeskFacts = { doer: { name: '', role: '' }, tags: new Map(), before: [], elsewhere: () => null };
  const begin = (): PackingFold => beginPacking(revision, outing, facts.before);
  let { kept } = setup;
  let waiting: Done[] = [];
  const queue: TagReading[] = [];
  let fold = packOn(begin(), kept);
  let writing: Promise<void> | null = null;
  let state: DeskState = {
    ...{ packing: stateOf(fold), unsaved: 0, stop: null, asked: null, queued: 0, bag: null, heard: null },
  };

  const set = (change: Partial<DeskState>): void => {
    state = { ...state, ...change, unsaved: waiting.length, queued: queue.length };
    for (const listener of listeners) listener();
  };
  /** As an event would be that is not kept yet. */
  const ahead = (done: Done, no: number): OutingEvent => ({
    ...{ ...done, id: '', rev: 0, revision: revision.id, no, prev: '', hash: '' },
  });
  const lastNo = (): number => Math.max(kept.at(-1)?.no ?? 0, fold.lastNo);
  const refold = (): void => {
    fold = packOn(begin(), kept);
    for (const done of waiting) packOn(fold, [ahead(done, lastNo() + 1)]);
  };

  const write = async (): Promise<void> => {
    while (waiting.length > 0) {
      const sent = [...waiting];
      try {
        kept = merged(kept, await append(sent));
        waiting = waiting.filter((one) => !sent.includes(one));
        refold();
        set({ packing: stateOf(fold) });
      } catch (error) {
        waiting = [];
        refold();
        const why = error instanceof Error ? error.message : String(error);
        const lost = sent.length === 1 ? 'The last deed is' : `The last ${sent.length} deeds are`;
        set({ packing: stateOf(fold), stop: { word: 'NOT SAVED', words: `${lost} not kept: ${why}` } });
      }
    }
    writing = null;
  };

  const act = (deeds: readonly Deed[], by: Doer = facts.doer): string | null => {
    const trial = deeds.length > 1 ? refolded() : fold;
    for (const [index, deed] of deeds.entries()) {
      const refusal = deedRefusal(trial, { by, deed }) ?? notHere(trial, deed);
      if (refusal !== null) return refusal;
      if (index < deeds.length - 1) packOn(trial, [ahead({ at: at(), by, outing, deed }, trial.lastNo + 1)]);
    }
    const done = deeds.map((deed): Done => ({ at: at(), by, outing, deed }));
    for (const one of done) packOn(fold, [ahead(one, lastNo() + 1)]);
    waiting.push(...done);
    set({ packing: stateOf(fold) });
    writing ??= Promise.resolve().then(write);
    return null;
  };
  const notHere = (folded: PackingFold, deed: Deed): string | null => {
    if (deed.kind !== 'counted') return null;
    const { item, pieces, label } = deed;
    const counted = [...folded.lines.values()]
      .filter(({ line }) => line.item === item)
      .reduce((sum, line) => sum + countedOf(line).pieces, 0);
    return facts.elsewhere({ item, counted, pieces, ...(label === undefined ? {} : { label }) });
  };
  const refolded = (): PackingFold => {
    const trial = packOn(begin(), kept);
    for (const one of waiting) packOn(trial, [ahead(one, Math.max(kept.at(-1)?.no ?? 0, trial.lastNo) + 1)]);
    return trial;
  };

  const work = (): void => {
    while (state.stop === null && state.asked === null && isNamed(facts.doer)) {
      const reading = queue.shift();
      if (reading === undefined) break;
      const { packing, bag } = state;
      const found = scanned(reading, { state: packing, bag, tags: facts.tags, revision });
      if (found.kind === 'refused') set({ stop: { word: 'Not counted', words: found.words } });
      else if (found.kind === 'open-bag') set({ bag: found.bag });
      else if (found.kind === 'ask') set({ asked: found, bag: found.bag });
      else {
        const refusal = act([{ ...found, kind: 'counted', pieces: 1, parts: 1 }]);
        if (refusal !== null) set({ stop: { word: 'Not counted', words: refusal } });
        else
          set({ bag: found.bag, heard: { text: saidOf(state.packing, found), times: (state.heard?.times ?? 0) + 1 } });
      }
    }
    set({});
  };

  return {
    state: () => state,
    subscribe(listener) {
      listeners.add(listener);
      return () => listeners.delete(listener);
    },
    know(next) {
      const isSame = next.before.join('\n') === facts.before.join('\n');
      facts = next;
      if (!isSame) {
        refold();
        set({ packing: stateOf(fold) });
      }
      // What was read before anyone had a name waited for it.
      if (queue.length > 0) work();
    },
    tell(events) {
      const known = kept.at(-1)?.no ?? 0;
      // What this desk has on its way comes back among them.
      for (const event of events) {
        const mine = event.no > known ? waiting.findIndex((done) => isSame(done, event)) : -1;
        if (mine !== -1) waiting = waiting.toSpliced(mine, 1);
      }
      kept = merged(kept, events);
      refold();
      set({ packing: stateOf(fold) });
    },
    open: (bag) => set({ bag }),
    act,
    read(reading) {
      queue.push(reading);
      work();
    },
    goOn() {
      set({ stop: null, asked: null });
      work();
    },
    settled: () => writing ?? Promise.resolve(),
  };
}

const isNamed = ({ name, role }: Doer): boolean => name !== '' && role !== '';
const told = ({ at, by, outing, deed }: Done): string => JSON.stringify([at, by.name, by.role, outing, sorted(deed)]);
const sorted = (deed: Deed): unknown => Object.entries(deed).toSorted(([a], [b]) => (a < b ? -1 : 1));
const isSame = (done: Done, event: OutingEvent): boolean => told(done) === told(event);

/** Nothing that was kept ever goes: what is told late adds nothing. */
function merged(kept: readonly OutingEvent[], news: readonly OutingEvent[]): readonly OutingEvent[] {
  const byNo = new Map([...kept, ...news].map((event) => [event.no, event]));
  return [...byNo.values()].toSorted((a, b) => a.no - b.no);
}

function saidOf({ bags }: PackState, { bag, item }: { bag: string; item: string }): string {
  const line = bags.find(({ id }) => id === bag)?.lines.find((one) => one.line.item === item);
  return line === undefined ? item : `${item}, ${line.counted.pieces} of ${line.line.quantity}`;
}
