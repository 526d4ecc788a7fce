/** A window that can be killed at any of its steps: from then on nothing it began is answered, and what was not committed is not there. */
import type { JournalHost } from '../../../shared-types/host.ts';
import { WorkingCopy } from '../../../renderer/store/copy/workingCopy.ts';

export interface Killable {
  journal: JournalHost;
  makeCopy: (name: string) => WorkingCopy;
  /** What it did so far, step by step: each call of the journal, each writing into a database. */
  steps: readonly string[];
  died: Promise<void>;
}

/** `before`: the step is not done. `after`: it is done, and nobody learns of it. */
export interface Death {
  /** The first step is 1. */
  at: number;
  when: 'before' | 'after';
}

const never = <T>(): Promise<T> => new Promise<T>(() => undefined);

/** @param death - absent: it lives, and its steps are counted */
export function killable(host: JournalHost, death: Death | null = null): Killable {
  const steps: string[] = [];
  const open = new Set<IDBTransaction>();
  const copies: WorkingCopy[] = [];
  let dead = false;
  let tell: () => void = () => undefined;
  const died = new Promise<void>((resolve) => (tell = resolve));
  const die = (): void => {
    dead = true;
    for (const transaction of open) transaction.abort();
    for (const copy of copies) if (copy.isOpen()) copy.backendDB().close();
    tell();
  };
  /** Whether this very step is the last. */
  const isLast = (name: string): boolean => steps.push(name) === death?.at;

  const step = async <T>(name: string, work: () => Promise<T>): Promise<T> => {
    if (dead) return await never<T>();
    const last = isLast(name);
    if (last && death?.when === 'before') {
      die();
      return await never<T>();
    }
    const answer = await work();
    if (last) die();
    return dead ? await never<T>() : answer;
  };

  class KillableCopy extends WorkingCopy {
    constructor(name: string) {
      super(name);
      copies.push(this);
      this.use({
        stack: 'dbcore',
        name: 'steps of a test',
        create: (core) => ({
          ...core,
          transaction: (tables, mode, options) => {
            const transaction = core.transaction(tables, mode, options);
            if (mode === 'readwrite' && transaction instanceof IDBTransaction) {
              open.add(transaction);
              for (const end of ['complete', 'abort'])
                transaction.addEventListener(end, () => open.delete(transaction));
            }
            return transaction;
          },
          table: (of) => {
            const table = core.table(of);
            return {
              ...table,
              mutate: (request) => {
                if (dead) return never();
                const last = isLast(`${request.type} ${of}`);
                if (last && death?.when === 'before') {
                  die();
                  return never();
                }
                // Committed, and not told: what else there is in the same transaction is committed with it.
                if (last && request.trans instanceof IDBTransaction)
                  request.trans.addEventListener('complete', () => die());
                return table.mutate(request).catch((error: unknown) => (dead ? never() : Promise.reject(error)));
              },
            };
          },
        }),
      });
    }
  }

  return {
    steps,
    died,
    makeCopy: (name) => new KillableCopy(name),
    journal: {
      open: () => step('journal open', () => host.open()),
      append: (request) => step('journal append', () => host.append(request)),
      read: (request) => step('journal read', () => host.read(request)),
      setDatabase: (request) => step('journal setDatabase', () => host.setDatabase(request)),
      beginAgain: (request) => step('journal beginAgain', () => host.beginAgain(request)),
      lease: (request, onLost) => step('journal lease', () => host.lease(request, onLost)),
    },
  };
}
