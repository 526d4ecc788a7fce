import { describe, expect, it } from 'vitest';
import { askedLast } from '../../renderer/features/bag/asked.ts';
import { createPlanning } from '../../renderer/features/bag/planning.ts';
import { firstPreferences } from '../../renderer/store/preferences.ts';
import { placeAddress, readPlace } from '../../renderer/store/place.ts';
import type { Place } from '../../renderer/store/place.ts';
import type { KeptResult } from '../../renderer/store/session.ts';
import { memoryJournal } from '../support/memoryJournal.ts';
import { asText, shownPlan } from './fixtures/plans.ts';
import { keepPlan, openSession, until } from './support/openSession.ts';

const kept: KeptResult = {
  minimised: 'mass',
  timeLimitS: null,
  plannedAt: '2026-01-02T10:42:00Z',
  result: {
    status: 'optimal',
    objective: null,
    outings: [],
    singleLoss: false,
    tolerance: 'nothing',
    wishes: { keep: [], forbid: [], spares: [] },
    unchecked: [],
    problems: [],
    infeasible: [],
    ignoredFields: [],
  },
};

describe('the session', () => {
  it('brings task, answer and preferences back in another window on the same journal', async () => {
    const journal = memoryJournal();
    const first = await openSession(journal);
    const { planHash, id } = await keepPlan(first.store, first.session, asText(shownPlan()));
    first.session.keepResult(planHash, kept);
    first.session.prefer({ units: 'si', person: 'A. Tester' });
    await until('all of it saved', () => {
      const { rows } = first.store.table('preferences').state();
      const answers = first.store.table('results').state().rows;
      return rows.get('preferences')?.person === 'A. Tester' && answers.has(id);
    });

    const second = await openSession(journal);
    await until('the answer', () => second.session.state().result !== null);
    expect(second.session.state().atHand?.name).toBe('T-1.json');
    expect(second.session.state().atHand?.plan.steps).toHaveLength(4);
    expect(second.session.state().result).toEqual(kept);
    expect(second.session.state().preferences).toMatchObject({ units: 'si', person: 'A. Tester', task: id });
  });

  it('begins as the program does where nothing is kept', async () => {
    const { session } = await openSession();
    expect(session.state()).toMatchObject({ preferences: firstPreferences, atHand: null, result: null, former: null });
  });

  it('keeps every wish of a quick succession, the last of each', async () => {
    const { session, store } = await openSession();
    for (const person of ['A', 'Ab', 'Abe']) session.prefer({ person });
    session.prefer({ paper: 'Letter' });
    expect(session.state().preferences).toMatchObject({ person: 'Abe', paper: 'Letter' });
    const row = () => store.table('preferences').state().rows.get('preferences');
    await until('the last wish', () => row()?.person === 'Abe' && row()?.paper === 'Letter');
  });

  it('calls an answer one to an earlier state once a step has changed, and the answer again once that is undone', async () => {
    const { session, store } = await openSession();
    const { planHash, id } = await keepPlan(store, session, asText(shownPlan()));
    session.keepResult(planHash, kept);
    await until('the answer kept', () => store.table('results').state().rows.has(id));
    const step = [...store.table('steps').state().rows.values()].find(({ code }) => code === 'deep');
    if (step === undefined) throw new Error('no such step');
    await store.commit({
      action: 'edit',
      title: 'Edit step deep',
      proposals: [{ table: 'steps', put: { ...step, access: { depth: '3 in' } } }],
    });
    await until('the changed task', () => session.state().atHand?.planHash !== planHash);
    expect(session.state().result).toBeNull();
    expect(session.state().former).toEqual(kept);
    await store.undo();
    await until('the task as it was', () => session.state().atHand?.planHash === planHash);
    expect(session.state().result).toEqual(kept);
    expect(session.state().former).toBeNull();
  });

  it('keeps answers given at once in their order, and shows none of them going back on the way', async () => {
    const { session, store } = await openSession();
    const { planHash, id } = await keepPlan(store, session, asText(shownPlan()));
    const given = ['mass', 'count', 'volume'] as const;
    const shown: string[] = [];
    const stop = session.subscribe(() =>
      shown.push(
        session
          .state()
          .past.map((past) => past.minimised)
          .join(),
      ),
    );
    for (const [index, minimised] of given.entries()) {
      session.keepResult(planHash, { ...kept, minimised, plannedAt: `2026-01-02T10:4${index}:00Z` });
    }
    const row = () => store.table('results').state().rows.get(id);
    await until('all three kept', () => row()?.past?.length === 3);
    await until('nothing on its way', () => session.state().past === row()?.past);
    stop();
    expect(row()?.minimised).toBe('volume');
    expect(row()?.past?.map((past) => past.minimised)).toEqual(['volume', 'count', 'mass']);
    expect([...new Set(shown)]).toEqual(['mass', 'count,mass', 'volume,count,mass']);
    expect(session.state().result?.minimised).toBe('volume');
  });

  it('keeps no answer for a task that has changed meanwhile', async () => {
    const { session, store } = await openSession();
    const { id } = await keepPlan(store, session, asText(shownPlan()));
    session.keepResult('0'.repeat(64), kept);
    await new Promise((resolve) => setTimeout(resolve, 50));
    expect(session.state().result).toBeNull();
    expect(store.table('results').state().rows.has(id)).toBe(false);
  });

  it('reads a task without the steps that cannot be read, and names them', async () => {
    const { session, store } = await openSession();
    const { id } = await keepPlan(store, session, asText(shownPlan()));
    const step = [...store.table('steps').state().rows.values()].find(({ code }) => code === 'deep');
    if (step === undefined) throw new Error('no such step');
    const { callout: _callout, ...without } = step;
    await store.commit({
      action: 'edit',
      title: 'Edit step deep',
      proposals: [{ table: 'steps', put: without }],
    });
    await until('the fault', () => (session.state().atHand?.missing.length ?? 0) > 0);
    expect(session.state().atHand?.id).toBe(id);
    expect(session.state().atHand?.missing[0]).toMatchObject({ table: 'steps', code: 'deep' });
    expect(session.state().atHand?.plan.steps).toHaveLength(3);
  });

  it('says NOT SAVED when a wish is not taken, holds it in this window, and keeps it when asked again', async () => {
    const { session, store, journal } = await openSession();
    journal.faults.refuseAppends = { code: 'disk', times: 1 };
    session.prefer({ person: 'B' });
    await until('NOT SAVED', () => store.saving().kind === 'not-saved');
    expect(session.state().preferences.person).toBe('B');
    store.saveAgain();
    await until('saved', () => store.saving().kind === 'saved');
    expect(store.table('preferences').state().rows.get('preferences')?.person).toBe('B');
  });

  it('lets go of a task that is closed, which stays kept, and of one that is removed', async () => {
    const { session, store } = await openSession();
    const { id } = await keepPlan(store, session, asText(shownPlan()));
    session.closeTask();
    await until('no task at hand', () => session.state().atHand === null);
    expect(store.table('tasks').state().rows.has(id)).toBe(true);
    session.openTask(id);
    await until('the task at hand again', () => session.state().atHand?.id === id);
    const goes = (table: 'tasks' | 'outings' | 'steps') =>
      [...store.table(table).state().rows.values()].map((row) => ({ table, remove: { id: row.id, rev: row.rev } }));
    await store.commit({
      action: 'remove',
      title: 'Remove the task',
      proposals: [...goes('steps'), ...goes('outings'), ...goes('tasks')],
    });
    await until('no task at hand', () => session.state().atHand === null);
  });

  it('lets go of a wish that may not be kept, and tells why', async () => {
    const { session, store } = await openSession();
    session.prefer({ person: 'x'.repeat(2001) });
    await until('the refusal', () => session.state().refused !== null);
    expect(session.state().refused?.name).toBe('Settings');
    expect(session.state().preferences.person).toBe('');
    expect(store.table('preferences').state().rows.size).toBe(0);
  });

  it('plans no bag while a record of the task cannot be read', async () => {
    const { session, store } = await openSession();
    await keepPlan(store, session, asText(shownPlan()));
    const asked: string[] = [];
    const planning = createPlanning(
      session,
      (text) => {
        asked.push(text);
        return { result: new Promise(() => undefined), onProgress: () => undefined, cancel: () => undefined };
      },
      () => new Date(),
    );
    const step = [...store.table('steps').state().rows.values()].find(({ code }) => code === 'deep');
    if (step === undefined) throw new Error('no such step');
    const { callout: _callout, ...without } = step;
    await store.commit({ action: 'edit', title: 'Edit', proposals: [{ table: 'steps', put: without }] });
    await until('the fault', () => (session.state().atHand?.missing.length ?? 0) > 0);
    planning.start(askedLast(null));
    expect(asked).toEqual([]);
    await store.undo();
    await until('the whole task', () => session.state().atHand?.missing.length === 0);
    planning.start(askedLast(null));
    expect(asked).toHaveLength(1);
  });
});

describe('a place in the address', () => {
  const places: Place[] = [
    { at: 'first' },
    { at: 'front' },
    { at: 'steps' },
    { at: 'steps', step: 'a/b c#?%' },
    { at: 'outings', outing: 'o/1' },
    { at: 'bag', outing: 'o 1' },
    { at: 'bag', outing: 'o/1', line: '["b","i"]' },
    { at: 'manifest', outing: 'ü' },
    { at: 'cards', outing: 'o/1', role: 'Lead, second' },
    { at: 'catalog' },
    { at: 'catalog', shelf: 'a', item: 'b' },
    { at: 'sites', site: 's', interface: 'i' },
  ];
  it.each(places)('comes back from its address: %j', (place) => {
    expect(readPlace(placeAddress(place))).toEqual(place);
  });
  it('names no item without its shelf', () => {
    expect(placeAddress({ at: 'catalog', item: 'b' })).toBe('#/catalog');
  });
  it.each(['', '#', '#/nowhere', '#/toString', '#/steps/%E0%A4%A'])('is never an error: %s', (address) => {
    expect(['first', 'steps']).toContain(readPlace(address).at);
  });
});
