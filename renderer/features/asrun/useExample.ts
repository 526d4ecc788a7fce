import { refusalOf } from '../../store/session.ts';
import type { Act } from '../../store/store.ts';
import { isoWithOffset } from '../manifest/isoWithOffset.ts';
import { useSession } from '../session/SessionContext.ts';
import { goTo } from '../session/usePlace.ts';
import { useStore, useTable } from '../session/useStore.ts';
import { addExample, exampleTables } from './exampleRecords.ts';

/** Brings the records of a worked example in; null where the task is none. */
export function useExample(x: {
  code: string;
  task: string;
  person: string;
  run: (act: Act) => Promise<boolean>;
}): (() => void) | null {
  const { code, task, person, run } = x;
  const store = useStore();
  const session = useSession();
  const items = useTable('items');
  const tables = exampleTables(code);
  if (tables === null || !items.ready) return null;
  const take = async (): Promise<void> => {
    const now = isoWithOffset(new Date());
    const given = { task, person, now, items: [...items.rows.values()], newId: store.newId };
    const { act, list } = addExample(await tables(), given);
    if (await run(act)) goTo({ at: 'asrun', list }, 'replace');
  };
  return () => void take().catch((error: unknown) => session.refuse('The example’s records', refusalOf(error)));
}
