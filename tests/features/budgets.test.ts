/** What prints and plans come to, counted: acceptance line E13. */
import { readFileSync } from 'node:fs';
import type { Highs } from 'highs';
import { expect, it } from 'vitest';
import { planBag } from '../../renderer/engine/bag/planBag.ts';
import { loadSolver } from '../../renderer/engine/bag/solver.ts';
import { readPlan } from '../../renderer/engine/plan/readPlan.ts';
import { tagText } from '../../renderer/engine/tag/index.ts';
import { cardsDocument } from '../../renderer/features/cards/cardsDocument.ts';
import { usualSizes } from '../../renderer/features/labels/labelForm.ts';
import { labelsDocument } from '../../renderer/features/labels/labelsDocument.ts';
import { manifestDocument } from '../../renderer/features/manifest/manifestDocument.ts';
import { reportDocument } from '../../renderer/features/report/reportDocument.ts';
import { request } from '../browser/manifestPlan.ts';
import { heldSource } from '../engine/cards/cardTask.ts';
import { overBudget } from '../support/budgets.ts';
import { judgedReport } from '../support/judgedList.ts';

const frame = { fonts: [], appVersion: '0.1.0', dataTime: '2026-11-25T10:42:00+01:00', paper: 'A4' as const };

/** Elements of a document's body. */
const elements = (html: string): number => (html.slice(html.indexOf('<body')).match(/<[a-z]/g) ?? []).length;

it('a row of a manifest, of a report', async () => {
  const { html } = await manifestDocument(request());
  const rows = html.match(/<tr\b/g)?.length ?? 0;
  expect(overBudget('manifest, a row', Math.round((100 * elements(html)) / rows) / 100)).toBeNull();
  // Of the rows alone: what the head has falls away.
  const of = async (count: number): Promise<number> =>
    elements((await reportDocument({ ...frame, report: judgedReport(count) })).html);
  expect(overBudget('report, a row', ((await of(800)) - (await of(80))) / 720)).toBeNull();
});

it.each(['sheet', 'single'] as const)('a label, %s', async (on) => {
  const of = async (count: number): Promise<number> => {
    const labels = Array.from({ length: count }, (_, at) => ({
      text: tagText({ kind: 'item', tag: 1 + at * 977, piece: 1 + (at % 9) }),
      ...{ code: `S-${at}`, name: `Socket ${at}`, said: `piece ${1 + (at % 9)} of 9` },
    }));
    const form = { symbols: 'both' as const, dpi: 300 as const, on, ...usualSizes.both };
    return elements((await labelsDocument({ ...frame, labels, form, source: 'Shelf Crew', revision: '—' })).html);
  };
  const each = ((await of(200)) - (await of(100))) / 100;
  expect(overBudget(on === 'sheet' ? 'label on a sheet' : 'label by itself', each)).toBeNull();
});

it('a step card', async () => {
  const { html } = await cardsDocument({ ...heldSource('1 in'), ...frame, fileName: 'p.json', person: '' });
  const cards = html.split('<section class="card">').length - 1;
  expect(overBudget('step card', elements(html) / cards)).toBeNull();
});

it('what the solver does for a demonstration plan', async () => {
  const highs = await loadSolver();
  const counted = { programs: 0, nodes: 0, steps: 0 };
  const withModel = ((data: never, use: (model: never) => unknown) =>
    highs.withModel(data, (model) => {
      const answer = use(model as never);
      counted.programs += 1;
      counted.nodes += Math.max(0, Number(model.info.get('mip_node_count')));
      counted.steps += Math.max(0, Number(model.info.get('simplex_iteration_count')));
      return answer;
    })) as Highs['withModel'];
  const solver = new Proxy(highs, {
    get: (of, name) => (name === 'withModel' ? withModel : (Reflect.get(of, name) as unknown)),
  });
  const plan = readPlan(readFileSync(new URL('../../data/demo/skua-rock-light.json', import.meta.url), 'utf8'));
  const { status } = await planBag(plan, { minimise: 'mass', solver });
  expect(status).toBe('optimal');
  expect([
    overBudget('solver, programs of Skua Rock light', counted.programs),
    overBudget('solver, nodes of Skua Rock light', counted.nodes),
    overBudget('solver, steps of Skua Rock light', counted.steps),
  ]).toEqual([null, null, null]);
});
