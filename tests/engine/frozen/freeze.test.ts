import { describe, expect, it } from 'vitest';
import { revisionRecord } from '../../../shared-types/records/revision.ts';
import { canonicalJson } from '../../../shared-types/canonicalJson.ts';
import type { TaskRecords } from '../../../renderer/engine/records/planOfTask.ts';
import { RefusedError } from '../../../renderer/engine/errors.ts';
import { freeze, readFrozen, whyNotFrozen } from '../../../renderer/engine/frozen/index.ts';
import { contentHash } from '../../../renderer/engine/record/chain.ts';
import { dice } from '../../reference/dice.ts';
import { mapResult, mapSource } from '../../support/bagMapPlan.ts';
import { digest, mapRevision, stateOf, stateOfPlan } from '../../support/frozenTask.ts';
import { smallPlan } from '../../support/smallPlan.ts';
import { keptTask } from '../records/keptTask.ts';

function refusalOf(work: () => unknown) {
  try {
    work();
  } catch (error) {
    if (error instanceof RefusedError) return error.refusal;
    throw error;
  }
  throw new Error('it was not refused');
}

/** Records of a task whose step acts on an interface, with what a card says of it. */
function workedTask(): TaskRecords {
  const { records } = keptTask(smallPlan());
  const pattern = 'circle 80 mm';
  const at = {
    id: 'if-1',
    rev: 1,
    site: 'site-1',
    code: 'A',
    name: 'flange',
    kind: 'fastener' as const,
    count: 4,
    pattern,
  };
  return {
    ...records,
    interfaces: [at, { ...at, id: 'if-2', code: 'B' }],
    sites: [{ id: 'site-1', rev: 1, code: 'ROCK' }],
    items: records.items.map((item) =>
      item.kind === 'torque-tool'
        ? { ...item, serial: 'N-17', calibrationDue: '2027-03-01', keptAt: 'drawer 3' }
        : item,
    ),
    steps: records.steps.map((step) =>
      step.code === 'tighten' ? { ...step, interface: 'if-1', positions: '1-2', passes: ['50 %'] } : step,
    ),
  };
}

describe('freezing', () => {
  it('holds every line of the bag once, and each thing of it as the catalog has it', async () => {
    const state = await stateOf(workedTask());
    const content = freeze(state);
    const planned = state.result?.outings.flatMap(({ id, items }) =>
      items.map((item) => ({
        outing: id,
        bag: item.bag,
        item: item.id,
        quantity: item.quantity,
        because: item.because,
      })),
    );
    expect(content.lines).toEqual(planned);
    expect(content.lines.length).toBeGreaterThan(3);
    expect(content.things.map(({ id }) => id)).toEqual(
      [...new Set(content.lines.flatMap(({ bag, item }) => [bag, item]))].toSorted(),
    );
    const tool = content.things.find(({ id }) => id === 'TT-2');
    expect(tool).toMatchObject({
      kind: 'torque-tool',
      serial: 'N-17',
      calibrationDue: '2027-03-01',
      keptAt: 'drawer 3',
    });
    expect(content.things.find(({ id }) => id === 'C-1')).not.toHaveProperty('serial');
    expect(content.facts.find(({ step }) => step === 'tighten')).toEqual({
      ...{ step: 'tighten', where: 'A, flange', positions: '1-2', passes: ['50 %'], carried: [] },
      at: { count: 4, pattern: 'circle 80 mm', order: null, mirrored: false, quarterTurns: null, desired: null },
    });
  });

  it('passes the schema under which it is kept', async () => {
    const revision = await mapRevision();
    expect(revisionRecord.parse(revision)).toEqual(revision);
    const { things } = revision.content;
    expect(things.find(({ id }) => id === 'T-07')).toMatchObject({ parts: 2, tag: 7 });
    expect(things.find(({ id }) => id === 'W-10')).toMatchObject({ consumed: true });
  });

  it('gives the same content for the same state, byte for byte, in whatever order its records come', async () => {
    const records = workedTask();
    const { result } = await stateOf(records);
    const said = new Map([['tighten', ['The stud seizes.']]]);
    const first = canonicalJson(freeze(await stateOf(records, { result, carried: said })));
    const roll = dice(20_261_126);
    const shuffled = <T>(list: readonly T[]): T[] =>
      list
        .map((one) => ({ one, at: roll.roll() }))
        .toSorted((a, b) => a.at - b.at)
        .map(({ one }) => one);
    const again = (change: Partial<TaskRecords> = {}) =>
      stateOf(
        {
          task: records.task,
          outings: shuffled(records.outings),
          steps: shuffled(records.steps),
          interfaces: shuffled(records.interfaces),
          sites: shuffled(records.sites),
          shelves: shuffled(records.shelves),
          items: shuffled(records.items),
          ...change,
        },
        { result, carried: said },
      );
    const hash = await digest(first);
    for (let round = 0; round < 100; round += 1) {
      const content = freeze(await again());
      expect(canonicalJson(content)).toBe(first);
      expect(await contentHash(content, digest)).toBe(hash);
    }
    // A state in which anything reads otherwise is another.
    const items = records.items.map((item) => (item.kind === 'torque-tool' ? { ...item, serial: 'N-18' } : item));
    expect(canonicalJson(freeze(await again({ items })))).not.toBe(first);
  });

  it('plans the same bag for the same state, so that planning again freezes the same', async () => {
    const [one, other] = [freeze(await stateOf(workedTask())), freeze(await stateOf(workedTask()))];
    expect(canonicalJson(one)).toBe(canonicalJson(other));
  });

  it('refuses what is not complete, has no bag, or cannot be done', async () => {
    const state = await stateOfPlan(smallPlan());
    expect(whyNotFrozen(state)).toBeNull();
    const missing = [
      { table: 'steps', id: 's', code: 'tighten', path: 'callout', reason: 'it has no callout' },
    ] as const;
    expect(whyNotFrozen({ ...state, missing })?.message).toMatch(/tighten: it has no callout/);
    expect(whyNotFrozen({ ...state, result: null })?.message).toMatch(/plan it first/);
    const { result } = state;
    if (result === null) throw new Error('the small plan has a bag');
    expect(refusalOf(() => freeze({ ...state, result: { ...result, status: 'infeasible' } })).field).toBe(
      'result.status',
    );
    expect(refusalOf(() => freeze({ ...state, result: { ...result, status: 'stopped', outings: [] } }))).toMatchObject({
      field: 'result.outings',
      value: 'O1',
    });
    expect(refusalOf(() => freeze({ ...state, plan: { ...state.plan, outings: [] } })).field).toBe('outings');
  });

  it('refuses a bag that names what the shelves do not have, or what is no bag', async () => {
    const state = await stateOfPlan(mapSource, { result: mapResult });
    const items = [...state.items].filter(({ code }) => code !== 'T-07');
    expect(refusalOf(() => freeze({ ...state, items }))).toMatchObject({ field: 'items.code', value: 'T-07' });
    const retired = [...state.items].map((item) => (item.code === 'R-38' ? { ...item, retired: true } : item));
    expect(refusalOf(() => freeze({ ...state, items: retired })).value).toBe('R-38');
    const [outing] = mapResult.outings;
    if (outing === undefined) throw new Error('the answer has an outing');
    const stray = { ...outing, items: outing.items.map((item) => ({ ...item, bag: 'S-13' })) };
    expect(refusalOf(() => freeze({ ...state, result: { ...mapResult, outings: [stray] } })).value).toBe('S-13');
  });
});

describe('a frozen manifest', () => {
  it('is read again as it was frozen, whatever the catalog says by now', async () => {
    const state = await stateOf(workedTask());
    const content = freeze(state);
    const frozen = readFrozen({ number: 1, content });
    expect(frozen.plan.source).toEqual(state.plan.source);
    expect(frozen.result).toEqual(state.result);
    expect(frozen.linesOf('O1')).toEqual(content.lines);
    expect(frozen.linesOf('O2')).toEqual([]);
    expect(frozen.thing('TT-2').serial).toBe('N-17');
    expect(new Map([...frozen.facts].map(([step, facts]) => [step, { ...facts }]))).toEqual(state.facts);
    expect(refusalOf(() => frozen.thing('TT-9'))).toMatchObject({ value: 'TT-9', file: 'Revision 1' });
  });

  it('is refused where a line names no outing, bag or thing of it', async () => {
    const { content } = await mapRevision();
    const [line] = content.lines;
    if (line === undefined) throw new Error('it has lines');
    for (const [change, value] of [
      [{ outing: 'other' }, 'other'],
      [{ bag: 'B-9' }, 'B-9'],
      [{ item: 'I-9' }, 'I-9'],
    ] as const)
      expect(
        refusalOf(() => readFrozen({ number: 2, content: { ...content, lines: [{ ...line, ...change }] } })),
      ).toMatchObject({
        value,
        file: 'Revision 2',
      });
    expect(refusalOf(() => readFrozen({ number: 2, content: { ...content, planText: '{"catalog":1}' } })).file).toBe(
      'Revision 2',
    );
  });
});
