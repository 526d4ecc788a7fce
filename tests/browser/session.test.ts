import { describe, expect, it } from 'vitest';
import { firstPreferences, readPreferences } from '../../renderer/store/preferences.ts';
import { placeAddress, readPlace } from '../../renderer/store/place.ts';
import type { Place } from '../../renderer/store/place.ts';
import { createSaver } from '../../renderer/store/saver.ts';
import { createSession } from '../../renderer/store/session.ts';
import type { WindowDb } from '../../renderer/store/db.ts';
import { asText, refusedPlan, shownPlan } from './fixtures/plans.ts';
import { freshDb } from './support/openWindow.tsx';

const now = (): Date => new Date();
const answer = {
  minimised: 'mass',
  timeLimitS: null,
  plannedAt: '2026-01-02T10:42:00Z',
  result: {
    status: 'optimal',
    objective: null,
    outings: [],
    singleLoss: false,
    unchecked: [],
    problems: [],
    infeasible: [],
    ignoredFields: [],
  },
} as const;

async function sessionOn(db: WindowDb) {
  const saver = createSaver(now);
  const session = createSession({ db, saver, now });
  await session.load();
  return { session, saver };
}

const kept = {
  ...answer,
  result: { ...answer.result, outings: [], unchecked: [], problems: [], infeasible: [], ignoredFields: [] },
};

describe('the session', () => {
  it('brings plan, result and preferences back after a reload', async () => {
    const db = await freshDb();
    const first = await sessionOn(db);
    expect(first.session.openPlan('a.json', asText(shownPlan()))).toBe(true);
    first.session.keepResult(first.session.state().atHand?.openedAt ?? '', kept);
    first.session.prefer({ units: 'si', person: 'A. Tester' });
    await first.saver.settled();
    expect(first.saver.state().kind).toBe('saved');

    const second = await sessionOn(db);
    expect(second.session.state().atHand?.name).toBe('a.json');
    expect(second.session.state().atHand?.plan.steps).toHaveLength(4);
    expect(second.session.state().result).toEqual(kept);
    expect(second.session.state().preferences).toMatchObject({ units: 'si', person: 'A. Tester' });
  });

  it('keeps what was open when a file is refused, and names every fault', async () => {
    const { session } = await sessionOn(await freshDb());
    session.openPlan('good.json', asText(shownPlan()));
    expect(session.openPlan('bad.json', asText(refusedPlan(3)))).toBe(false);
    expect(session.state().atHand?.name).toBe('good.json');
    expect(session.state().refused?.refusal.rows).toHaveLength(3);
    expect(session.state().refused?.refusal.rows?.[0]).toMatchObject({ field: 'steps[0].demand', value: '1 furlong' });
  });

  it('forgets the result of the plan before', async () => {
    const db = await freshDb();
    const { session, saver } = await sessionOn(db);
    session.openPlan('a.json', asText(shownPlan()));
    const before = session.state().atHand?.openedAt ?? '';
    session.keepResult(before, kept);
    await new Promise((resolve) => setTimeout(resolve, 5));
    session.openPlan('b.json', asText(shownPlan()));
    session.keepResult(before, kept);
    await saver.settled();
    expect(session.state().result).toBeNull();
    expect(await db.result.count()).toBe(0);
  });

  it('says NOT SAVED when the store is closed under it, and the plan stays at hand', async () => {
    const db = await freshDb();
    const { session, saver } = await sessionOn(db);
    db.close();
    session.openPlan('a.json', asText(shownPlan()));
    await saver.settled();
    expect(saver.state().kind).toBe('not-saved');
    expect(session.state().atHand?.name).toBe('a.json');
  });

  it('opens without the store where that never answers, and says so', async () => {
    const db = await freshDb();
    const saver = createSaver(now);
    const stuck = Object.assign(Object.create(db) as WindowDb, { plan: { get: () => new Promise(() => undefined) } });
    const session = createSession({ db: stuck, saver, now, loadLimitMs: 30 });
    await session.load();
    expect(session.state().ready).toBe(true);
    expect(saver.state()).toMatchObject({ kind: 'not-saved' });
  });

  it('keeps the good fields of preferences when one is spoilt', () => {
    expect(readPreferences({ units: 'furlongs', person: 'A' })).toEqual({ ...firstPreferences, person: 'A' });
    expect(readPreferences(null)).toEqual(firstPreferences);
  });
});

describe('a place in the address', () => {
  const places: Place[] = [
    { at: 'first' },
    { at: 'steps' },
    { at: 'steps', step: 'a/b c#?%' },
    { at: 'bag', outing: 'o 1' },
    { at: 'bag', outing: 'o/1', line: '["b","i"]' },
    { at: 'manifest', outing: 'ü' },
  ];
  it.each(places)('comes back from its address: %j', (place) => {
    expect(readPlace(placeAddress(place))).toEqual(place);
  });
  it.each(['', '#', '#/nowhere', '#/steps/%E0%A4%A'])('is never an error: %s', (address) => {
    expect(['first', 'steps']).toContain(readPlace(address).at);
  });
});
