import { readFileSync } from 'node:fs';
import { beforeAll, describe, expect, it } from 'vitest';
import { planBag } from '../../renderer/engine/bag/planBag.ts';
import { tablesByDocument } from '../../renderer/engine/handbook/index.ts';
import { planFrom, readPlan } from '../../renderer/engine/plan/readPlan.ts';
import { judgeStep } from '../../renderer/engine/stack/judgeStep.ts';
import { quantityIn } from '../../renderer/engine/units/index.ts';
import type { BagResult } from '../../shared-types/bag.ts';
import { planSchema, type Plan, type PlanStep } from '../../shared-types/plan.ts';
import { handbookRows, isPublished, readNotes } from './publishedFigures.ts';

const text = (path: string) => readFileSync(new URL(`../../data/${path}`, import.meta.url), 'utf8');
const starter = new Map(
  ['starter-inch', 'starter-metric', 'carry']
    .flatMap((name) =>
      Object.values((JSON.parse(text(`catalog/${name}.json`)) as { catalog: Plan['catalog'] }).catalog).flat(),
    )
    .map((item) => [item.id, item]),
);
const ours = /^(skua|tarn)-/;

const demos = ['skua-rock-light', 'tarn-array'].map((name) => {
  const json = text(`demo/${name}.json`);
  const plan = planSchema.parse(JSON.parse(json));
  return { name, json, plan, catalog: Object.values(plan.catalog).flat() };
});
const steps = demos.flatMap(({ plan }) => plan.steps.map((step) => ({ id: step.id, step, plan })));
const tightening = steps.filter(({ step }) => step.action === 'tighten');

describe.each(demos)('$name', ({ name, json, plan, catalog }) => {
  it('is a plan with no field unknown to the rules', () => {
    expect(plan).toEqual(JSON.parse(json));
    expect(readPlan(json, `${name}.json`).ignoredFields).toEqual([]);
  });

  it('has unique ids', () => {
    for (const list of [catalog, plan.outings, plan.steps, plan.places ?? []]) {
      const ids = list.map(({ id }) => id);
      expect(new Set(ids).size).toBe(ids.length);
    }
  });

  it('has a name for everything, and says of every block of figures that it is invented', () => {
    const named = [...catalog, ...plan.outings, ...plan.steps, ...(plan.places ?? [])];
    expect(named.filter((block) => !block.name)).toEqual([]);
    const blocks = [...catalog, ...plan.outings, ...plan.steps];
    expect(blocks.filter(({ notes }) => !/\binvented\b/i.test(notes ?? ''))).toEqual([]);
    for (const said of [plan.task?.about, plan.task?.site, plan.task?.crew]) expect(said).toMatch(/\binvented\b/i);
  });

  it('takes its tools from the starter catalog, with only the number on hand its own', () => {
    for (const item of catalog.filter(({ id }) => !ours.test(id))) {
      const held = starter.get(item.id);
      expect(item).toEqual({
        ...held,
        onHand: 'onHand' in item ? item.onHand : 0,
        notes: `${held?.notes} On hand: invented.`,
      });
    }
  });

  it('quotes published head sizes as the handbook has them', () => {
    for (const fastener of plan.catalog.fasteners) {
      for (const figure of readNotes(fastener.notes ?? '').published) {
        expect([fastener.id, figure.what, isPublished(figure)]).toEqual([fastener.id, figure.what, true]);
        expect(figure.what).toContain(fastener.head.acrossFlats);
      }
      if (!fastener.notes?.startsWith('Published')) expect(fastener.notes).toMatch(/^Invented: width across flats/);
    }
  });
});

it('gives no id of its own twice over both plans, so that both can be held at once', () => {
  const ids = demos.flatMap(({ plan, catalog }) =>
    [...catalog, ...plan.outings, ...plan.steps, ...(plan.places ?? [])]
      .map(({ id }) => id)
      .filter((id) => !starter.has(id)),
  );
  expect(ids.filter((id, index) => ids.indexOf(id) !== index)).toEqual([]);
});

describe('each callout', () => {
  it.each(tightening)('$id is the band printed for its thread, in the printed unit', ({ step, plan }) => {
    const said = citedBand(step);
    const fastener = plan.catalog.fasteners.find(({ id }) => id === step.fastener);
    expect(said.row).toBe(fastener?.thread);
    expect(step.callout).toEqual({ min: `${said.min} ${said.unit}`, max: `${said.max} ${said.unit}` });
    expect(printedBand(said)).toEqual([Number(said.min), Number(said.max)]);
  });

  it('is refused by this test where a number was changed', () => {
    const said = citedBand(demos[0]?.plan.steps[0] as PlanStep);
    expect(printedBand(said)).not.toEqual([Number(said.min), Number(said.max) + 1]);
    expect(() => citedBand({ calloutSource: 'from memory' })).toThrow('calloutSource');
  });

  it('that leaves running torque out gives one within the limits of the document it names', () => {
    const added = tightening.filter(({ step }) => step.runningIncluded === false);
    expect(added.length).toBeGreaterThanOrEqual(3);
    for (const { step } of added) {
      const [document, row, most, least, unit] = runningLimits(step.notes ?? '');
      const held = handbookRows(document, row).some(
        (r) => Object.values(r).includes(most) && Object.values(r).includes(least),
      );
      expect([step.id, held]).toEqual([step.id, true]);
      expect(quantityIn(step.running?.max ?? '', 'torque', unit)).toBeLessThanOrEqual(most);
      expect(quantityIn(step.running?.min ?? '', 'torque', unit)).toBeGreaterThanOrEqual(least);
    }
  });
});

const answers = new Map<string, BagResult>();
beforeAll(async () => {
  for (const { name, json } of demos) {
    answers.set(name, await planBag(readPlan(json, `${name}.json`), { minimise: 'mass' }));
  }
}, 240_000);
const answer = (name: string) => answers.get(name) as BagResult;

describe.each(demos)('the bag for $name', ({ name, plan }) => {
  it('is proven least, with nothing wrong with the plan', () => {
    expect(answer(name)).toMatchObject({ status: 'optimal', infeasible: [], problems: [] });
    expect(answer(name).objective?.gap).toBe(0);
  });

  it('uses bags of roles and the shared bag', () => {
    for (const outing of answer(name).outings) {
      const roles = outing.items.map((item) => plan.catalog.bags.find(({ id }) => id === item.bag)?.role ?? 'shared');
      expect(new Set(roles).size).toBeGreaterThanOrEqual(3);
    }
  });

  it('takes a tool for each role that turns something in the same slot', () => {
    const stacks = new Map(answer(name).outings.flatMap((outing) => outing.steps.map((step) => [step.id, step.stack])));
    const turning = plan.steps.filter((step) => step.slot !== undefined && step.action !== 'use');
    const slots = [...new Set(turning.map((step) => `${step.outing} ${step.slot}`))]
      .map((slot) => turning.filter((step) => `${step.outing} ${step.slot}` === slot))
      .filter((group) => new Set(group.map((step) => step.role)).size > 1);
    expect(slots.length).toBeGreaterThanOrEqual(2);
    for (const group of slots) {
      const tools = new Set(group.map((step) => stacks.get(step.id)?.[0]));
      expect(tools.size).toBeGreaterThan(1);
    }
  });

  it('shares one torque tool among several steps', () => {
    const torqueTools = new Set(plan.catalog.torqueTools.map(({ id }) => id));
    const shared = answer(name)
      .outings.flatMap((outing) => outing.items)
      .filter((item) => torqueTools.has(item.id) && item.because.length > 1);
    expect(shared.length).toBeGreaterThanOrEqual(2);
  });
});

describe('the universal joint of the Tarn array', () => {
  const resolved = readPlan(demos[1]?.json ?? '');
  const step = (id: string) => resolved.steps.find((s) => s.id === id) as (typeof resolved.steps)[number];

  it('is in the bag on the way out, and in no later one', () => {
    const { outings } = answer('tarn-array');
    expect(outings[0]?.steps.find(({ id }) => id === 't1-caliper-upper')?.stack).toContain('uj-m10');
    expect(outings.slice(1).flatMap(({ items }) => items.map(({ id }) => id))).not.toContain('uj-m10');
  });

  it('is in no stack that tightens, and too weak for the stuck bolt', () => {
    for (const id of ['t2-caliper-upper', 't1-caliper-stuck']) {
      const { best, others } = judgeStep(resolved, step(id));
      expect([best, ...others].flatMap((judged) => judged?.stack ?? [])).not.toContain('uj-m10');
    }
  });
});

describe('the stock of the Tarn array', () => {
  it('stands the loss of any one piece for more, and that of any one bag for more still', async () => {
    const copy = planSchema.parse(JSON.parse(demos[1]?.json ?? ''));
    copy.outings = copy.outings.filter(({ id }) => id === 't3-close');
    copy.steps = copy.steps.filter(({ outing }) => outing === 't3-close').map(({ after: _earlier, ...step }) => step);
    const prices: number[] = [];
    for (const tolerance of ['nothing', 'piece', 'bag'] as const) {
      const result = await planBag(planFrom(copy), { minimise: 'mass', tolerance });
      expect([tolerance, result.status]).toEqual([tolerance, 'optimal']);
      prices.push(result.objective?.value ?? Number.NaN);
    }
    expect(prices).toEqual([4.407, 5.15, 6.45].map((kg) => expect.closeTo(kg, 6)));
    expect(prices[0]).toBe(answer('tarn-array').outings[2]?.massKg);
  });
});

describe('small changes have large answers', () => {
  const changed = (index: number, change: (plan: Plan) => void) => {
    const copy = planSchema.parse(JSON.parse(demos[index]?.json ?? ''));
    change(copy);
    return planBag(planFrom(copy), { minimise: 'mass' });
  };

  it('without the preset wrench no torque tool is short enough for the coupling nuts', async () => {
    const result = await changed(0, ({ catalog }) => {
      catalog.torqueTools = catalog.torqueTools.filter(({ id }) => id !== 'tp-i38-a');
    });
    expect(result.status).toBe('infeasible');
    expect(result.infeasible[0]?.step).toBe('b4-coupling');
    expect(result.infeasible[0]?.closest.flatMap(({ fails }) => fails.map(({ check }) => check))).toContain('swing');
  });

  it('with the case forgotten at the mast foot it is a problem, and the bag stays proven', async () => {
    const result = await changed(1, (plan) => {
      plan.steps = plan.steps.filter(({ id }) => id !== 't3-case');
    });
    expect(result.status).toBe('optimal');
    expect(result.problems.map(({ rule, id, place }) => [rule, id, place])).toEqual([
      ['left-behind', 'tarn-cg-case-heads', 'mast-foot'],
      ['left-behind', 'tarn-cg-head', 'mast-foot'],
    ]);
  });
});

interface CitedBand {
  document: string;
  edition: string;
  table: string;
  row: string;
  column: string;
  printed: string | undefined;
  min: string;
  max: string;
  unit: string;
}

const citation =
  /^(?<document>[^,]+), (?:edition )?(?<edition>[^,]+), (?<table>[^,]+), row (?<row>[^,]+), (?<column>[^,:]+)(?:, (?<printed>\d+) \S+ with tolerance 10 %)?: (?<min>[\d.]+) to (?<max>[\d.]+) (?<unit>lbf·in|lbf·ft|N·m)\. /;

function citedBand(step: Pick<PlanStep, 'calloutSource'>): CitedBand {
  const read = citation.exec(step.calloutSource ?? '')?.groups;
  if (!read) throw new Error(`calloutSource names no document, edition, table, row and column: ${step.calloutSource}`);
  return read as unknown as CitedBand;
}

/** The band as the handbook prints it: two columns, or one value with the tolerance its table states. */
function printedBand(said: CitedBand): number[] {
  const unit = said.unit.replace('·', '_').replace('.', '_');
  const name = said.column.replaceAll(' ', '_');
  for (const table of tablesByDocument(said.document)) {
    if (table.source.edition !== said.edition || table.source.table !== said.table) continue;
    const row = (table.rows as unknown as Record<string, unknown>[]).find(
      (r) => (r['thread'] ?? r['size']) === said.row,
    );
    if (!row) continue;
    if (said.printed === undefined) return [row[`${name}_min_${unit}`], row[`${name}_max_${unit}`]].map(Number);
    const value = row[`torque_${name}_${unit}`];
    if (value !== Number(said.printed) || !table.notes.includes('tolerance 10 %')) return [];
    // Tenths of a per cent, so that 0.9 of a whole number has no last bit of its own.
    return [(Number(value) * 90) / 100, (Number(value) * 110) / 100];
  }
  return [];
}

function runningLimits(
  notes: string,
): [document: string, row: string, most: number, least: number, unit: 'lbf·in' | 'N·m'] {
  const read =
    /; (?<document>[^,;]+),.* row (?<row>\S+) prints at most (?<most>[\d.]+) (?<unit>\S+) .*at least (?<least>[\d.]+) /.exec(
      notes,
    )?.groups;
  const unit = read?.['unit'];
  if (!read || (unit !== 'lbf·in' && unit !== 'N·m')) throw new Error(`names no running limits: ${notes}`);
  return [read['document'] ?? '', read['row'] ?? '', Number(read['most']), Number(read['least']), unit];
}
