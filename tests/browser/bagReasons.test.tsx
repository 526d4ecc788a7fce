import { describe, expect, it } from 'vitest';
import { page, userEvent } from 'vitest/browser';
import type { BagResult } from '../../shared-types/bag.ts';
import type { ReasonFound, WithoutItem } from '../../shared-types/bagReasons.ts';
import type { ReasonsAsked } from '../../renderer/workers/reasonsMessages.ts';
import { mapOuting, mapResult, mapSource } from '../support/bagMapPlan.ts';
import { axeFaults } from './support/axe.ts';
import { openTask } from './support/openTask.tsx';

/** Finds what the test says, when it says so. */
function fakeReasons() {
  const runs: {
    asked: ReasonsAsked;
    find: (...found: ReasonFound[]) => void;
    end: () => void;
    fail: (reason: Error) => void;
    cancelled: boolean;
    lookedAt: string[];
  }[] = [];
  return {
    runs,
    start: (asked: ReasonsAsked, onFound: (reason: ReasonFound) => void) => {
      let settle: { resolve: (all: boolean) => void; reject: (error: Error) => void } | undefined;
      const done = new Promise<boolean>((resolve, reject) => {
        settle = { resolve, reject };
      });
      const run = {
        asked,
        find: (...found: ReasonFound[]) => found.forEach((one) => onFound(one)),
        end: () => settle?.resolve(true),
        fail: (error: Error) => settle?.reject(error),
        cancelled: false,
        lookedAt: [] as string[],
      };
      runs.push(run);
      return {
        done,
        cancel: () => void (run.cancelled = true),
        lookAt: ({ outing, id }: { outing: string; id: string }) => void run.lookedAt.push(`${outing} ${id}`),
      };
    },
  };
}

async function openBag(result: BagResult = mapResult) {
  const reasons = fakeReasons();
  const opened = await openTask(mapSource, '#/bag', { reasons: reasons.start });
  const { planHash } = opened.session.state().atHand ?? { planHash: '' };
  const plannedAt = new Date().toISOString();
  opened.session.keepResult(planHash, {
    ...{ minimised: 'mass', tolerance: 'piece', timeLimitS: null, plannedAt },
    // Found once for each answer: every test has its own.
    result: structuredClone(result),
  });
  await expect.poll(() => reasons.runs.length).toBeGreaterThan(0);
  const [run] = reasons.runs;
  if (run === undefined) throw new Error('nothing was asked');
  return { ...opened, reasons, run };
}

const without = (change: Partial<WithoutItem>): ReasonFound => ({
  kind: 'without',
  found: {
    ...{ outing: 'o', id: 'R-38', packed: 1, left: 0, unit: 'kg', againstWish: false, outcome: 'proven', cost: null },
    ...{ comesIn: [], goesOut: [], changed: [], fails: [], conflicts: [] },
    ...change,
  },
});
const why = () => page.getByRole('region', { name: /why it is here/ });

describe('the reasons of a bag', () => {
  it('are asked with what was planned, and given up where the sheet is left', async () => {
    const { run, reasons } = await openBag();
    expect(run.asked).toMatchObject({ minimise: 'mass', tolerance: 'piece', result: mapResult });
    window.location.hash = '#/front';
    await expect.poll(() => reasons.runs.every(({ cancelled }) => cancelled)).toBe(true);
  });

  it('are asked for the line in hand first, whichever that becomes', async () => {
    const { run } = await openBag();
    await expect.poll(() => run.lookedAt).toEqual(['o R-38']);
    await userEvent.click(page.getByRole('row', { name: /T-07/ }));
    await expect.poll(() => run.lookedAt).toEqual(['o R-38', 'o T-07']);
  });

  it('until the planner has answered are judged step by step, and say so', async () => {
    await openBag();
    await expect.element(why()).toHaveTextContent(/1 step fails: 1\./);
    await expect.element(why()).toHaveTextContent('Each step judged alone; the planner is still being asked.');
  });

  it('say which steps fail without it, with what comes nearest', async () => {
    const { run } = await openBag();
    run.find(
      without({
        outcome: 'infeasible',
        fails: [
          {
            ...{ step: 'turn', reason: 'no stack' },
            closest: [{ stack: ['X-150'], fails: [{ check: 'reach', have: '10 mm', need: '20 mm' }] }],
          },
        ],
      }),
    );
    await expect.element(why()).toHaveTextContent(/1 step fails: 1\. Nearest: extension X-150, reaches: has 10 mm/);
  });

  it.each([
    [
      {
        cost: { value: 0.31, bound: 0.31 },
        comesIn: [{ id: 'X-150', quantity: 1 }],
        goesOut: [{ id: 'R-38', quantity: 1 }],
      },
      '1 × extension X-150 would take its place: 0.310 kg (0.683 lb) more.',
    ],
    [
      { cost: { value: 0, bound: 0 }, comesIn: [], goesOut: [{ id: 'S-13', quantity: 1 }] },
      'The rest of the bag would take its place, and 1 × Socket 13 mm (S-13) would stay home: no more mass.',
    ],
    [
      { outcome: 'stopped' as const, cost: { value: 0.2, bound: 0.1 }, comesIn: [{ id: 'X-150', quantity: 2 }] },
      '2 × extension X-150 would take its place: 0.200 kg (0.441 lb) more at most (not proved).',
    ],
    [{ outcome: 'open' as const }, 'Not known: out of time before a bag was found.'],
  ])('say what takes its place and what that costs: %#', async (change, words) => {
    const { run } = await openBag();
    run.find(without(change));
    await expect.element(why()).toHaveTextContent(words);
  });

  it('say it of one piece fewer too, and where a wish keeps it', async () => {
    const { run } = await openBag();
    await userEvent.click(page.getByRole('row', { name: /Tool tether/ }));
    run.find(
      without({ id: 'T-07', packed: 3, left: 2, cost: { value: 0, bound: 0 }, againstWish: true }),
      without({ id: 'T-07', packed: 3, left: 0, outcome: 'open' }),
    );
    await expect.element(why()).toHaveTextContent(/With 2 of 3: .*It is kept by wish.*Not known/s);
  });

  it('give the price of tolerance as it comes, and why one is not possible', async () => {
    const { run } = await openBag();
    const price = () => page.getByRole('region', { name: 'Price of tolerance' });
    await expect.element(price()).toHaveTextContent(/nothing lost.*being worked out/s);
    const point = (tolerance: 'nothing' | 'piece' | 'bag', value: number | null): ReasonFound => ({
      kind: 'tolerance',
      found: {
        ...{ tolerance, unit: 'kg', outings: [], conflicts: [], losses: [] },
        outcome: value === null ? 'infeasible' : 'proven',
        total: value === null ? null : { value, bound: value },
        stoppedBy: value === null ? [{ outing: 'o', reason: 'one bag alone', closest: [] }] : [],
      },
    });
    run.find(point('nothing', 0.834), point('piece', 1.2), point('bag', null));
    await expect.element(price()).toHaveTextContent(/any one piece lost1\.200 kg: 0\.366 kg more/);
    await expect.element(price()).toHaveTextContent(/any one bag lostnot possible: one bag alone/);
    run.find({
      kind: 'limit',
      found: {
        ...{ outing: 'o', limit: { kind: 'massMax', bag: 'C' }, allowed: 1, used: 0.98, unit: 'kg', binds: true },
        ...{ objectiveUnit: 'kg', relaxed: { value: 0.8, bound: 0.8 } },
      },
    });
    await expect
      .element(page.getByRole('region', { name: 'Limits that hold it back' }))
      .toHaveTextContent('Common box: mass0.980 kg of 1.000 kg; without it 0.800 kg');
    run.end();
    expect(await axeFaults()).toEqual([]);
  });

  it('say so where no limit binds, and where the search for them failed', async () => {
    const { run } = await openBag();
    run.find({
      kind: 'limit',
      found: {
        ...{ outing: 'o', limit: { kind: 'stock', id: 'S-13' }, allowed: 4, used: 1, unit: 'pieces', binds: false },
        ...{ objectiveUnit: 'kg', relaxed: null },
      },
    });
    run.fail(new Error('the worker went away'));
    await expect
      .element(page.getByRole('region', { name: 'Limits that hold it back' }))
      .toHaveTextContent(/None: without any one limit/);
    await expect.element(why()).toHaveTextContent('the planner could not be asked: the worker went away.');
  });
});

describe('a plan that cannot be done', () => {
  const impossible: BagResult = {
    ...mapResult,
    status: 'infeasible',
    objective: null,
    outings: [],
    infeasible: [{ outing: 'o', reason: 'its steps do not go together', closest: [] }],
  };

  it('names the steps that are possible alone and not together, with what would ease it', async () => {
    const { run } = await openBag(impossible);
    await expect.element(page.getByText('Looking for the steps that do not go together…')).toBeVisible();
    run.find({
      kind: 'conflict',
      found: {
        ...{ outing: 'o', tolerance: 'nothing', steps: ['turn', 'wipe'], easedTogether: [], reason: 'mass of L' },
        eased: [
          {
            ...{ outing: 'o', limit: { kind: 'massMax', bag: 'L' }, allowed: 2, used: null, unit: 'kg' },
            ...{ needs: 2.31, least: true },
          },
        ],
      },
    });
    const fault = page.getByRole('region', { name: 'Not together 1' });
    await expect.element(fault).toHaveTextContent(/Not together: steps 1, 2/);
    await expect
      .element(fault)
      .toHaveTextContent('at most 2.000 kg; with 2.310 kg they go together, with less they do not');
    expect(await axeFaults()).toEqual([]);
  });

  it('names the loss that a step does not survive', async () => {
    const { run } = await openBag(impossible);
    run.find({
      kind: 'loss',
      found: { outing: 'o', step: 'turn', lost: { piece: 'S-13' }, closest: [], reason: 'does not survive S-13' },
    });
    await expect
      .element(page.getByRole('region', { name: 'Loss 1' }))
      .toHaveTextContent('does not survive S-13 (Socket 13 mm)');
  });

  it('leaves a bag that was found without such a list', async () => {
    await openBag({ ...mapResult, outings: [mapOuting] });
    expect(page.getByText('Looking for the steps that do not go together…').elements()).toEqual([]);
  });
});
