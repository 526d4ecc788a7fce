import { afterEach, describe, expect, it } from 'vitest';
import { userEvent } from 'vitest/browser';
import { planBag } from '../../renderer/engine/bag/planBag.ts';
import { loadSolver } from '../../renderer/engine/bag/solver.ts';
import { readPlan } from '../../renderer/engine/plan/readPlan.ts';
import { RefusedError } from '../../renderer/engine/errors.ts';
import { allCommands } from '../../renderer/features/palette/commands.ts';
import type { Deeds } from '../../renderer/features/palette/commands.ts';
import { recordCommands } from '../../renderer/features/asrun/recordAsking.ts';
import { bagCommands } from '../../renderer/features/bag/bagCommands.ts';
import { benchCommands } from '../../renderer/features/bench/benchCommands.ts';
import { handbookCommands } from '../../renderer/features/handbook/handbookCommands.ts';
import { calloutCommands } from '../../renderer/features/callouts/calloutAsking.ts';
import { catalogCommands } from '../../renderer/features/catalog/catalogCommands.ts';
import { kitCommands } from '../../renderer/features/kits/kitCommands.ts';
import { labelCommands } from '../../renderer/features/labels/labelAsking.ts';
import { packCommands } from '../../renderer/features/pack/packCommands.ts';
import { outAndBackCommands } from '../../renderer/features/record/recordAsking.ts';
import { revisionCommands } from '../../renderer/features/revisions/revisionAsking.ts';
import { snapshotCommands } from '../../renderer/features/snapshots/snapshotCommands.ts';
import { watchOutCommands } from '../../renderer/features/watchOuts/watchOutAsking.ts';
import { taskCommands } from '../../renderer/features/task/taskCommands.ts';
import { asText, emptyPlan, shownPlan } from './fixtures/plans.ts';
import { openWindow } from './support/openWindow.tsx';

const plan = asText(shownPlan());
const reachable = asText({ ...shownPlan(), steps: shownPlan().steps.slice(0, 3) });

async function solved(text: string) {
  const { default: address } = await import('highs/runtime?url');
  const solver = await loadSolver(() => new URL(address, document.baseURI).href);
  return planBag(readPlan(text), { minimise: 'mass', solver });
}

afterEach(() => {
  window.location.hash = '#/';
});

describe('the steps sheet', () => {
  it('shows state, checks with margins, the setting in two units and running torque apart', async () => {
    const { screen, bringIn } = await openWindow();
    await bringIn(plan);
    window.location.hash = '#/steps/tighten';
    await expect.element(screen.getByRole('heading', { level: 1, name: '2 · Tighten the cover' })).toBeVisible();
    await expect.element(screen.getByText('Sharp edge on the cover.')).toBeVisible();
    await expect.element(screen.getByRole('heading', { name: 'Set the tool to' })).toBeVisible();
    const setting = document.querySelector('.bw-setting')?.textContent ?? '';
    expect(setting).toContain('32.5 lbf·ft (44.1 N·m)');
    expect(setting).toContain('callout30–35 lbf·ft');
    expect(setting).toContain('of it, running10–80 lbf·in');
    expect(setting).toContain('left for seating23.4–34.1 lbf·ft');
    expect(setting).toContain('Assumed');
    const checks = screen.getByRole('region', { name: 'Checks' });
    await expect.element(checks.getByRole('row', { name: /^Reaches/ })).toHaveTextContent('2.25 in over');
    await expect.element(screen.getByText(/Callout: Invented for the test/)).toBeVisible();
  });

  it('never just says no: a step out of reach names its closest fits with what is short', async () => {
    const { screen, bringIn } = await openWindow();
    await bringIn(plan);
    window.location.hash = '#/steps/deep';
    const fits = screen.getByRole('region', { name: 'Closest fits' });
    await expect.element(fits.getByText('10.25 in (260.35 mm)').first()).toBeVisible();
    await expect
      .element(screen.getByRole('region', { name: 'Checks of the nearest' }))
      .toHaveTextContent('short by 1.75 in');
    await userEvent.click(fits.getByRole('button', { name: 'Draw this one' }).first());
    expect(fits.getByRole('button', { name: 'Drawn above' }).elements()).toHaveLength(1);
  });

  it('shows gear of a step done by hand', async () => {
    const { screen, bringIn } = await openWindow();
    await bringIn(plan);
    window.location.hash = '#/steps/cap';
    await expect.element(screen.getByRole('region', { name: 'Gear' })).toHaveTextContent('2 × gear C-1');
  });

  it('shows every unit asked for, in strip and by keys', async () => {
    const { screen, session, bringIn } = await openWindow();
    await bringIn(plan);
    window.location.hash = '#/steps/tighten';
    const row = () => screen.getByRole('row', { name: /Tighten the cover/ });
    await expect.element(row()).toHaveTextContent('30–35 lbf·ft');
    await userEvent.click(screen.getByRole('radio', { name: 'SI', exact: true }));
    await expect.element(row()).toHaveTextContent('40.7–47.4 N·m');
    await userEvent.keyboard('uw');
    await expect.element(row()).toHaveTextContent('30–35 lbf·ft');
    expect(session.state().preferences.units).toBe('as-written');
    await userEvent.keyboard('ub');
    await expect.element(screen.getByRole('radio', { name: 'Both' })).toBeChecked();
  });
});

describe('the palette', () => {
  const nothing = (): void => undefined;
  const deeds: Deeds = {
    go: nothing,
    walkStep: nothing,
    bringFileIn: nothing,
    demos: ['skua-rock-light', 'tarn-array'].map((id) => ({ id, name: id, bringIn: nothing, save: nothing })),
    saveTask: nothing,
    closeTask: nothing,
    undo: nothing,
    redo: nothing,
    plan: nothing,
    cancelPlanning: nothing,
    saveResult: nothing,
    saveAgain: nothing,
    prefer: nothing,
    find: nothing,
    keys: nothing,
    settings: nothing,
  };
  const situation = {
    hasTask: true,
    notPlannable: null,
    undo: null,
    redo: null,
    hasResult: true,
    planning: false,
    notSaved: false,
  };
  const all = [
    ...allCommands(deeds, situation),
    ...taskCommands({ hasTask: true, place: { at: 'first' } }),
    ...bagCommands({ hasTask: true, hasResult: true, planning: false, place: { at: 'bag' } }),
    ...calloutCommands(true),
    ...recordCommands(true),
    ...catalogCommands(),
    ...kitCommands(),
    ...labelCommands(),
    ...packCommands(true),
    ...revisionCommands(true),
    ...outAndBackCommands(true),
    ...snapshotCommands(),
    ...watchOutCommands(),
    ...handbookCommands(),
    ...benchCommands({ at: 'first' }),
  ];

  it('lists every command with its keys while nothing is typed', async () => {
    const { screen } = await openWindow();
    await userEvent.keyboard('{Control>}k{/Control}');
    await expect.element(screen.getByRole('combobox', { name: 'Find or do' })).toHaveFocus();
    const rows = [...document.querySelectorAll<HTMLElement>('[role=option]')];
    expect(rows.map((row) => row.dataset['command']).toSorted()).toEqual(all.map(({ id }) => id).toSorted());
    for (const { id, keys } of all) {
      const shown = document.querySelector(`[data-command="${id}"] kbd`)?.textContent ?? null;
      expect(shown === null).toBe(keys === null);
    }
  });

  it('gives no two commands the same keys, and none that begin another’s', () => {
    const keyed = all.flatMap(({ keys }) => (keys === null ? [] : [keys.join(' ')]));
    expect(new Set(keyed).size).toBe(keyed.length);
    for (const one of keyed)
      for (const other of keyed) expect(one !== other && other.startsWith(`${one} `)).toBe(false);
  });

  it('lists every button of the window', async () => {
    const { screen, session, bringIn } = await openWindow();
    await bringIn(reachable);
    const { planHash } = session.state().atHand ?? { planHash: '' };
    session.keepResult(planHash, {
      minimised: 'mass',
      timeLimitS: null,
      plannedAt: new Date().toISOString(),
      result: await solved(reachable),
    });
    window.location.hash = '#/bag';
    await expect.element(screen.getByRole('heading', { name: /^Proved least/ })).toBeVisible();
    const titles = all.map(({ title }) => title);
    for (const title of ['Save result as JSON…', 'Save lines as CSV…', 'Settings', 'Keys', 'Find or do…']) {
      expect(titles).toContain(title);
      expect(screen.getByRole('button', { name: title }).elements().length).toBeGreaterThan(0);
    }
  });

  it('finds steps and items of the plan and goes there', async () => {
    const { screen, bringIn } = await openWindow();
    await bringIn(plan);
    await userEvent.keyboard('{Control>}k{/Control}');
    await userEvent.type(screen.getByRole('combobox', { name: 'Find or do' }), 'deep bolt');
    await expect.element(screen.getByRole('option', { name: /4 · Tighten the deep bolt/ })).toBeVisible();
    await userEvent.keyboard('{Enter}');
    await expect.poll(() => window.location.hash).toBe('#/steps/deep');
    await expect.element(screen.getByRole('heading', { level: 1, name: /Tighten the deep bolt/ })).toBeVisible();
    await userEvent.keyboard('{Control>}k{/Control}');
    await userEvent.type(screen.getByRole('combobox', { name: 'Find or do' }), 'X-6');
    await expect.element(screen.getByRole('option', { name: /^Item.*X-6/ })).toBeVisible();
  });

  it('says why a command cannot be taken, and does nothing', async () => {
    const { screen, planner } = await openWindow();
    await userEvent.keyboard('{Control>}k{/Control}');
    await userEvent.type(screen.getByRole('combobox', { name: 'Find or do' }), 'plan the bag');
    await expect
      .element(screen.getByRole('option', { name: /Plan the bag/ }).first())
      .toHaveTextContent('open a task first');
    await userEvent.keyboard('{Enter}');
    expect(planner.runs).toHaveLength(0);
    await userEvent.keyboard('{Escape}');
    await expect.poll(() => document.querySelector('dialog')).toBeNull();
  });

  it('leaves letters alone where single keys are switched off or a field is typed into', async () => {
    const { screen, session } = await openWindow();
    session.prefer({ singleKeys: false });
    await userEvent.keyboard('?');
    expect(document.querySelector('dialog')).toBeNull();
    session.prefer({ singleKeys: true });
    await userEvent.type(screen.getByRole('textbox', { name: /Your name/ }), '?gs,');
    expect(document.querySelector('dialog')).toBeNull();
    expect(session.state().preferences.person).toBe('?gs,');
    (document.activeElement as HTMLElement).blur();
    await userEvent.keyboard('?');
    await expect.element(screen.getByRole('dialog', { name: 'Keys' })).toBeVisible();
  });
});

describe('the bag sheet', () => {
  it('shows progress while planning, and can be cancelled without changing anything', async () => {
    const { screen, bringIn, session, planner } = await openWindow();
    await bringIn(reachable);
    window.location.hash = '#/bag';
    await userEvent.click(screen.getByRole('button', { name: 'Plan the bag' }));
    planner.runs[0]?.progress({ outing: 'O1', best: 3.5, bound: 3.2, elapsedS: 1 });
    await expect.element(screen.getByText('3.500 kg', { exact: false }).first()).toBeVisible();
    await expect.element(screen.getByText('3.200 kg', { exact: false }).first()).toBeVisible();
    await userEvent.click(screen.getByRole('button', { name: 'Cancel planning' }));
    await expect.poll(() => planner.runs[0]?.cancelled).toBe(true);
    await expect.element(screen.getByText('Planning was cancelled. Nothing was changed.')).toBeVisible();
    expect(session.state().result).toBeNull();
    expect(session.state().refused).toBeNull();
  });

  it('gives the contents with the reason for each line, the proof and the second count', async () => {
    const { screen, session, bringIn, planner, host } = await openWindow();
    await bringIn(reachable);
    window.location.hash = '#/bag';
    await userEvent.click(screen.getByRole('button', { name: 'Plan the bag' }));
    // Torque tool 0.9, ratchet 0.3, extension 0.11, socket 0.06, two caps 0.04, the bag 0.5 kg.
    planner.runs[0]?.answer(await solved(reachable));
    await expect.element(screen.getByRole('heading', { name: /^Proved least: 1\.910 kg/ })).toBeVisible();
    await expect.element(screen.getByRole('heading', { name: 'What the figures rest on' })).toBeInTheDocument();
    await expect.element(screen.getByText(/ISO 14253-1.*edition.*half to even/)).toBeInTheDocument();
    await expect.element(screen.getByText(/by an independent count: 3 steps/)).toBeVisible();
    await userEvent.click(screen.getByRole('row', { name: /socket S-9\/16|S-9\/16/ }).first());
    await expect.element(screen.getByRole('heading', { name: /why it is here/ })).toBeVisible();
    const why = document.querySelector('.bw-why')?.textContent ?? '';
    expect(why).toMatch(/Needed at.*steps? 1/);
    expect(why).toContain('Without it');
    await userEvent.click(screen.getByRole('button', { name: 'Save result as JSON…' }));
    await userEvent.click(screen.getByRole('button', { name: 'Save lines as CSV…' }));
    await expect
      .poll(() => host.saved.map(({ name }) => name.replace(/\d{4}-\d\d-\d\d/, 'day')))
      .toEqual(['bag_T-1_day.json', 'bag_T-1_day.csv']);
    const { basis, course, ...saved } = JSON.parse(new TextDecoder().decode(host.saved[0]?.bytes)) as {
      basis: string[];
      course: { outings: unknown[] };
    };
    expect(saved).toEqual(session.state().result?.result);
    expect(course.outings).toHaveLength(1);
    expect(basis.join(' ')).toMatch(/ISO 14253-1.*edition.*half to even/);
  });

  it('says not proved, with the bound, when it was stopped', async () => {
    const { screen, session, bringIn } = await openWindow();
    await bringIn(reachable);
    const best = await solved(reachable);
    if (best.objective === null) throw new Error('nothing was solved');
    const stopped = {
      ...best,
      status: 'stopped' as const,
      objective: { ...best.objective, bound: best.objective.value * 0.96, gap: 0.04 },
    };
    const { planHash } = session.state().atHand ?? { planHash: '' };
    session.keepResult(planHash, {
      minimised: 'mass',
      timeLimitS: 1,
      plannedAt: new Date().toISOString(),
      result: stopped,
    });
    window.location.hash = '#/bag';
    await expect.element(screen.getByRole('heading', { name: /^Not proved \(bound 4 %\)/ })).toBeVisible();
    expect(document.body.textContent).not.toContain('Proved least:');
  });

  it('names the step at fault and its closest fits when no bag does it', async () => {
    const { screen, session, bringIn } = await openWindow();
    await bringIn(plan);
    const { planHash } = session.state().atHand ?? { planHash: '' };
    session.keepResult(planHash, {
      minimised: 'mass',
      timeLimitS: null,
      plannedAt: new Date().toISOString(),
      result: await solved(plan),
    });
    window.location.hash = '#/bag';
    await expect.element(screen.getByRole('heading', { name: 'No bag does it: 1 fault' })).toBeVisible();
    await expect.element(screen.getByText('Step 4, Tighten the deep bolt')).toBeVisible();
    await expect.element(screen.getByText('12 in (305 mm)').first()).toBeVisible();
  });

  it('refuses a time limit it cannot read, with the same words above and beside, and moves the focus', async () => {
    const { screen, bringIn, planner } = await openWindow();
    await bringIn(reachable);
    window.location.hash = '#/bag';
    await userEvent.type(screen.getByRole('textbox', { name: 'Time limit (s)' }), 'soon');
    await userEvent.click(screen.getByRole('button', { name: 'Plan the bag' }));
    await expect.element(screen.getByRole('heading', { name: '1 field to mend' })).toHaveFocus();
    expect(screen.getByText(/Time limit "soon"/).elements()).toHaveLength(2);
    expect(planner.runs).toHaveLength(0);
    await userEvent.click(screen.getByRole('button', { name: /Time limit "soon"/ }));
    await expect.element(screen.getByRole('textbox', { name: 'Time limit (s)' })).toHaveFocus();
  });

  it('says why planning was refused', async () => {
    const { screen, bringIn, planner } = await openWindow();
    await bringIn(reachable);
    window.location.hash = '#/bag';
    await userEvent.click(screen.getByRole('button', { name: 'Plan the bag' }));
    planner.runs[0]?.fail(
      new RefusedError({ code: 'missing-field', message: 'X-3 has no volume', field: 'catalog.extensions[0].volume' }),
    );
    await expect.element(screen.getByRole('heading', { name: 'The bag was not planned: 1 fault' })).toHaveFocus();
    await expect.element(screen.getByText('X-3 has no volume')).toBeVisible();
  });
});

describe('a list with nothing in it', () => {
  it('says so, on every sheet', async () => {
    const { screen, session, bringIn } = await openWindow();
    await bringIn(asText(emptyPlan()));
    window.location.hash = '#/steps';
    for (const place of ['bag', 'manifest']) {
      const told = screen.getByRole('heading', { name: 'This task has no steps yet' });
      await expect.element(told).toBeVisible();

      window.location.hash = `#/${place}`;
      await expect.element(told).toBeVisible();
    }
    const { planHash } = session.state().atHand ?? { planHash: '' };
    const result = await solved(asText(emptyPlan()));
    session.keepResult(planHash, { minimised: 'mass', timeLimitS: null, plannedAt: new Date().toISOString(), result });
    await expect.element(screen.getByRole('navigation', { name: 'Job line' })).toHaveTextContent('needs steps');
    expect(document.body.textContent).not.toMatch(/Proved least|ready to preview/);
    await userEvent.keyboard('{Control>}k{/Control}');
    await userEvent.type(screen.getByRole('combobox', { name: 'Find or do' }), 'no such thing');
    await expect.element(screen.getByText('Nothing here holds “no such thing”.')).toBeVisible();
  });
});

describe('the title strip', () => {
  it('shows NOT SAVED with its reason, keeps it, and saves again when asked', async () => {
    const { screen, session, store, journal } = await openWindow();
    journal.faults.refuseAppends = { code: 'disk', times: 1 };
    session.prefer({ person: 'A' });
    const status = screen.getByRole('status').filter({ hasText: 'This machine' });
    await expect.element(status).toHaveTextContent('NOT SAVED');
    await expect.element(screen.getByRole('button', { name: 'Save again' })).toBeVisible();
    await userEvent.click(screen.getByRole('button', { name: 'Save again' }));
    await expect.element(status).toHaveTextContent(/Saved \d\d:\d\d/);
    expect(store.table('preferences').state().rows.get('preferences')?.person).toBe('A');
  });

  it('always carries the caution', async () => {
    const { screen, bringIn } = await openWindow();
    const line = screen.getByRole('contentinfo');
    await expect.element(line).toHaveTextContent('Torque and lifting can hurt people.');
    await bringIn(plan);
    for (const place of ['#/front', '#/steps', '#/outings', '#/bag', '#/manifest', '#/catalog', '#/sites']) {
      window.location.hash = place;
      await expect.element(line).toHaveTextContent('Torque and lifting can hurt people.');
    }
  });
});
