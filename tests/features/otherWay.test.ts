import { describe, expect, test } from 'vitest';
import type { Plan } from '../../shared-types/plan.ts';
import type { Item } from '../../shared-types/records/item.ts';
import { planBag } from '../../renderer/engine/bag/planBag.ts';
import { cardsOf } from '../../renderer/engine/cards/index.ts';
import { courseOf } from '../../renderer/engine/outing/course.ts';
import { planFrom } from '../../renderer/engine/plan/readPlan.ts';
import { readableTask } from '../../renderer/engine/records/readableTask.ts';
import {
  isRightWay,
  noneMeasuresIt,
  otherWay,
  otherWayOf,
  otherWayText,
} from '../../renderer/engine/stack/otherWay.ts';
import { manifestOf } from '../../renderer/features/manifest/manifestOf.ts';
import { stillOpen } from '../../renderer/features/overview/stillOpen.ts';
import { cardPlan, cardSource, type CardCase } from '../engine/cards/cardTask.ts';
import { keptTask } from '../engine/records/keptTask.ts';
import { smallPlan } from '../support/smallPlan.ts';

type Way = 'right' | 'left' | 'both' | undefined;

/** The small plan with the thread's hand and the torque tool's way. A right-hand thread tightens clockwise by its definition. */
function turned(hand: 'right' | 'left', direction: Way, loosens = false) {
  const plan = smallPlan();
  const thread = `3/8-24 UNF-3A${hand === 'left' ? ' LH' : ''}`;
  const [tool] = plan.catalog.torqueTools;
  return {
    ...plan,
    catalog: {
      ...plan.catalog,
      fasteners: plan.catalog.fasteners.map((one) => ({ ...one, thread })),
      torqueTools: [{ ...tool, loosens, ...(direction === undefined ? {} : { direction }) }],
    },
  };
}

const planOf = (hand: 'right' | 'left', direction: Way, loosens = false) => planFrom(turned(hand, direction, loosens));

describe('which way a torque tool measures', () => {
  test.each([
    ['right', 'right', null],
    ['right', 'both', null],
    ['right', undefined, null],
    ['right', 'left', 'TT-2 measures to the left alone, and this thread tightens to the right'],
    ['left', 'left', null],
    ['left', 'both', null],
    ['left', 'right', 'TT-2 measures to the right alone, and this thread tightens to the left'],
    ['left', undefined, 'TT-2 is not said to measure to the left, and this thread tightens to the left'],
  ] as const)('a %s-hand thread with a tool that measures %s', (hand, direction, says) => {
    const plan = planOf(hand, direction);
    const [loosen, tighten, use] = plan.steps;
    const tool = plan.tools.get('TT-2');
    const ratchet = plan.tools.get('R-38');
    if (!loosen || !tighten || !use || !tool || !ratchet) throw new Error('the small plan has changed');
    const way = otherWay(tighten, tool);
    expect(way === null ? null : otherWayText(way)).toBe(says);
    // Loosening measures nothing, and a ratchet measures nothing either way.
    expect([otherWay(loosen, tool), otherWay(use, tool), otherWay(tighten, ratchet)]).toEqual([null, null, null]);
    expect(otherWayOf(plan, tighten, [])).toBeNull();
    const known = way !== null && way.measures !== null;
    expect(isRightWay(plan, tighten, ['TT-2', 'S-9/16'])).toBe(!known);
    expect([noneMeasuresIt(plan, tighten), noneMeasuresIt(plan, loosen)]).toEqual([known, false]);
  });

  test('changes nothing in the planner’s answer, and is told with the course of the outing', async () => {
    const [plain, other] = [planOf('left', undefined), planOf('left', 'right')];
    const [first, second] = [await planBag(plain, { minimise: 'mass' }), await planBag(other, { minimise: 'mass' })];
    expect(second).toEqual(first);
    expect(courseOf(other, second.outings).outings[0]?.problems).toEqual([
      {
        rule: 'other-way',
        outing: 'O1',
        step: 'tighten',
        id: 'TT-2',
        role: 'Lead',
        kind: 'tool',
        quantity: 1,
        mends: [
          {
            how: 'tool',
            outing: 'O1',
            step: 'tighten',
            says: expect.stringMatching(
              /^Plan again with TT-2 forbidden, or give .* a torque tool that measures to the left\.$/,
            ),
          },
        ],
      },
    ]);
    const assumed = courseOf(plain, first.outings);
    expect(assumed.outings[0]?.problems).toEqual([]);
    expect(assumed.assumptions.join(' ')).toMatch(/TT-2 measures to the left; its direction is not given/);
  });

  test('is open on the front sheet and in the manifest, which gives no setting', async () => {
    const plan = planOf('left', 'right');
    const result = await planBag(plan, { minimise: 'mass' });
    const kept = { minimised: 'mass' as const, timeLimitS: null, plannedAt: '2026-01-02T10:42:00Z', result };
    const points = stillOpen({
      ...{ plan, missing: [], judgements: new Map(), result: kept, former: null, items: [], today: '2026-01-02' },
    });
    expect(points.find(({ id }) => id === 'way tighten')).toMatchObject({ mark: 'other-way', to: { step: 'tighten' } });
    const sheet = (of: typeof plan) =>
      manifestOf({ plan: of, result, outing: 'O1', units: 'as-written', fileName: 'plan.json' });
    const [said, plain] = [sheet(plan), sheet(planOf('left', 'both'))];
    if (!('steps' in said) || !('steps' in plain)) throw new Error('there is no manifest');
    expect(said.problems.join(' ')).toMatch(/Measures the other way: step 2, TT-2 measures to the right alone/);
    expect(said.steps[1]?.setting).toBeNull();
    expect(plain.problems).toEqual([]);
    expect(plain.steps[1]?.setting).not.toBeNull();
  });
});

describe('a card of a step whose tool measures the other way', () => {
  const cards = (direction: Way, wanted: CardCase) => {
    const source = cardSource(wanted);
    const written: Plan = structuredClone(cardPlan(wanted).source);
    const tools = written.catalog.torqueTools.map((tool) => ({ ...tool, ...(direction ? { direction } : {}) }));
    const plan = planFrom({ ...written, catalog: { ...written.catalog, torqueTools: tools } });
    return cardsOf({ ...source, plan, room: { most: 1, of: () => 0 } }).flatMap(({ parts }) => parts);
  };
  const final = (direction: Way, hand: 'right' | 'left') => {
    const step = cards(direction, { hand }).find((part) => part.step.id === 'final')?.step;
    if (step === undefined) throw new Error('no card has the step');
    return step;
  };

  test('turns nothing, takes nothing up and gives no setting', () => {
    const step = final('right', 'left');
    expect(step.state).toBe('other-way');
    expect(step.stack).toEqual([]);
    expect(step.lines).toEqual([
      {
        kind: 'do',
        reach:
          'Nothing is turned: T measures to the right alone, and this thread tightens to the left. Plan again with another torque tool',
        where: 'B1, azimuth flange',
        count: '12 pieces',
        value: { kind: 'words', text: 'no setting' },
      },
    ]);
    expect(step.boxes).toBeNull();
  });

  test('with a direction that is not given is warned, and keeps its setting', () => {
    const step = final(undefined, 'left');
    expect(step.state).toBe('planned');
    expect(step.notes[0]).toMatch(/^T is not said to measure to the left.*: see that it does before it is set\.$/);
    expect(final('both', 'left').notes[0]).not.toMatch(/measure/);
  });
});

describe('the stock of a task', () => {
  const left = (plan: unknown) =>
    readableTask(keptTask(plan).records).leftOut.map(({ code, reason }) => `${code}: ${reason}`);

  test('is without a tool that measures to the other side than every step tightens', () => {
    expect(left(turned('left', 'right'))).toEqual([
      'TT-2: it measures to the right alone, and every step that tightens does so to the left',
    ]);
    expect(left(turned('right', 'left'))).toHaveLength(1);
  });

  test('keeps one that is right for some step, that may loosen, or of which nothing is said', () => {
    for (const plan of [
      turned('left', 'left'),
      turned('left', 'both'),
      turned('left', undefined),
      turned('left', 'right', true),
    ])
      expect(left(plan)).toEqual([]);
    const plan = turned('left', 'right');
    const mixed = {
      ...plan,
      catalog: {
        ...plan.catalog,
        fasteners: [...plan.catalog.fasteners, { ...plan.catalog.fasteners[0], id: 'F2', thread: '3/8-24 UNF-3A' }],
      },
      steps: [...plan.steps, { ...plan.steps[1], id: 'other', fastener: 'F2' }],
    };
    expect(left(mixed)).toEqual([]);
  });

  test('keeps it where a thread cannot be read, so that nobody knows', () => {
    const { records } = keptTask(turned('left', 'right'));
    const items = records.items.map((item): Item => (item.kind === 'fastener' ? { ...item, thread: 'unsaid' } : item));
    expect(readableTask({ ...records, items }).leftOut).toEqual([]);
  });
});
