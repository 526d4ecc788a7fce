import { describe, expect, it } from 'vitest';
import { engagement } from '../../../electron/headless/commands/engagement.ts';
import type { Answer, CommandArgument, CommandIo } from '../../../electron/headless/command.ts';
import { runCommand } from '../../../electron/headless/run.ts';
import { RefusedError } from '../../../renderer/engine/errors.ts';
import type { EngagementResult } from '../../../shared-types/engagement.ts';

const encoder = new TextEncoder();

function withFile(content: string): CommandIo {
  return {
    readText: async () => content,
    readBytes: async () => encoder.encode(content),
    async *readLines() {
      yield encoder.encode(content);
    },
    inBatch: false,
    run: runCommand,
  };
}

const half = { thread: '1/2-13', externalClass: '2A', internalClass: '2B', engagement: '0.5 in' };
const metric = {
  thread: 'M10',
  engagement: '10 mm',
  limits: {
    majorExternalMinMm: 9.732,
    pitchExternalMinMm: 8.862,
    minorInternalMaxMm: 8.676,
    pitchInternalMaxMm: 9.206,
  },
};

async function answer(input: Record<string, unknown>): Promise<{ exit: Answer['exit']; result: EngagementResult }> {
  const { exit, result } = await engagement(['--file', input], withFile(''));
  return { exit, result: result as EngagementResult };
}

async function refusal(...args: CommandArgument[]) {
  try {
    await engagement(args, withFile(''));
  } catch (error) {
    if (error instanceof RefusedError) return error.refusal;
    throw error;
  }
  throw new Error('nothing was refused');
}

const refused = (input: Record<string, unknown>) => refusal('--file', input);

describe('engagement', () => {
  it('has every field of the contract', async () => {
    const { exit, result } = await answer({ ...half, externalUltimate: '120 ksi', internalUltimate: '120 ksi' });
    expect(exit).toBe(0);
    expect(result).toMatchObject({ failsFirst: 'bolt', threadFailsBeforeBolt: false });
    expect(result.shearAreaExternalMm2 / 645.16).toBeCloseTo(0.3916, 4);
    expect(result.shearAreaInternalMm2 / 645.16).toBeCloseTo(0.5622, 4);
    expect(result.requiredEngagementMm).toBeCloseTo(9.2034, 4);
    expect(Object.keys(result.limits).toSorted()).toEqual([
      'majorExternalMinMm',
      'minorInternalMaxMm',
      'pitchExternalMinMm',
      'pitchInternalMaxMm',
    ]);
    expect(result.sources.map(({ number, obtained }) => `${number}, ${obtained}`)).toEqual([
      'FED-STD-H28/2B, text found',
      'ASME B1.1, from memory',
      'NASA TM-106943, text found',
    ]);
    expect(result.assumptions.join(' ')).toMatch(/half its tensile strength.*full threads.*from memory/s);
  });

  it.each([
    ['long enough, equal strengths', '0.4 in', '100 ksi', '100 ksi', 'bolt', 0],
    ['too short for the bolt’s own thread', '0.3 in', '100 ksi', '100 ksi', 'external thread', 1],
    ['a weak tapped part', '0.5 in', '120 ksi', '45 ksi', 'internal thread', 1],
    ['a weak tapped part, engaged deeper', '0.8 in', '120 ksi', '45 ksi', 'bolt', 0],
    ['a strong nut helps no short bolt', '0.3 in', '100 ksi', '300 ksi', 'external thread', 1],
  ])('%s', async (_, length, externalUltimate, internalUltimate, failsFirst, exit) => {
    const given = await answer({ ...half, engagement: length, externalUltimate, internalUltimate });
    expect({ exit: given.exit, failsFirst: given.result.failsFirst }).toEqual({ exit, failsFirst });
    expect(given.result.threadFailsBeforeBolt).toBe(exit === 1);
  });

  it('for a weaker internal thread the required length is Le·J', async () => {
    const equal = await answer({ ...half, externalUltimate: '830 MPa', internalUltimate: '830 MPa' });
    const weak = await answer({ ...half, externalUltimate: '830 MPa', internalUltimate: '310 MPa' });
    expect(weak.result.strengthRatio).toBeGreaterThan(1);
    expect(equal.result.strengthRatio).toBeLessThan(1);
    expect(weak.result.requiredEngagementMm).toBeCloseTo(
      (equal.result.requiredEngagementMm ?? 0) * (weak.result.strengthRatio ?? 0),
      10,
    );
  });

  it('without strengths says the length for one material, and what fails first not', async () => {
    const { exit, result } = await answer(half);
    expect(exit).toBe(0);
    expect(result).toMatchObject({ failsFirst: null, threadFailsBeforeBolt: null });
    expect(result.requiredEngagementMm).toBeCloseTo(9.2034, 4);
    // Both parts count as one material.
    expect(result.strengthRatio).toBeCloseTo(result.shearAreaExternalMm2 / result.shearAreaInternalMm2, 12);
    expect(result.assumptions).toContain(
      'Neither strength is given: the required engagement is for both parts of one material.',
    );
  });

  it('without strengths an engagement too short for the bolt’s own thread strips all the same', async () => {
    const { exit, result } = await answer({ ...half, engagement: '0.3 in' });
    expect(exit).toBe(1);
    expect(result).toMatchObject({ failsFirst: null, threadFailsBeforeBolt: true });
  });

  it.each(['externalUltimate', 'internalUltimate'])('with %s alone the required length is not known', async (field) => {
    const { exit, result } = await answer({ ...half, [field]: '100 ksi' });
    expect(exit).toBe(0);
    expect(result.assumptions.join(' ')).not.toContain('Neither strength');
    expect(result).toMatchObject({
      requiredEngagementMm: null,
      strengthRatio: null,
      failsFirst: null,
      threadFailsBeforeBolt: null,
    });
  });

  it('takes explicit limits for metric threads, with or without classes', async () => {
    const strengths = { externalUltimate: '800 MPa', internalUltimate: '310 MPa' };
    const { exit, result } = await answer({ ...metric, ...strengths });
    expect(exit).toBe(1);
    expect(result.failsFirst).toBe('internal thread');
    expect(result.limits).toEqual(metric.limits);
    // π·10·8.676/1.5·(0.75 + 0.57735·(8.862 − 8.676)) and π·10·9.732/1.5·(0.75 + 0.57735·(9.732 − 9.206))
    expect(result.shearAreaExternalMm2).toBeCloseTo(155.7956, 3);
    expect(result.shearAreaInternalMm2).toBeCloseTo(214.7692, 3);
    expect(result.insertShearAreaMm2).toBeNull();
    expect(result.sources.map(({ number }) => number)).toEqual(['FED-STD-H28/2B']);
    const withClasses = await answer({ ...metric, ...strengths, externalClass: '2A', internalClass: '2B' });
    expect(withClasses.result).toEqual(result);
  });

  it('limits given again are the same answer', async () => {
    const computed = await answer({
      ...half,
      engagement: '0.5 in',
      externalUltimate: '1 GPa',
      internalUltimate: '1 GPa',
    });
    const again = await answer({
      thread: '1/2-13',
      engagement: '12.7 mm',
      externalUltimate: '1000 MPa',
      internalUltimate: '1000 N/mm2',
      limits: computed.result.limits,
    });
    expect(again.result.requiredEngagementMm).toBe(computed.result.requiredEngagementMm);
    expect(again.result.failsFirst).toBe(computed.result.failsFirst);
  });

  it('takes the classes out of the designation, and any case and spaces', async () => {
    const three = await answer({ ...half, externalClass: '3A', internalClass: '3B' });
    for (const input of [
      { thread: '1/2-13 UNC-3A', internalClass: '3B' },
      { thread: '1/2-13 UNC-3A', externalClass: '3A', internalClass: '3b' },
      { thread: '1/2-13 UNC-3B', externalClass: ' 3a ' },
    ]) {
      expect((await answer({ ...input, engagement: '0.5 in' })).result.limits).toEqual(three.result.limits);
    }
    expect((await answer({ ...half, internalClass: '3B' })).result.limits).toMatchObject({
      pitchInternalMaxMm: three.result.limits.pitchInternalMaxMm,
    });
  });

  it('below 1/4 in class 2B has its own minor tolerance', async () => {
    const { result } = await answer({ ...half, thread: '#10-32', engagement: '0.19 in' });
    expect(result.limits.minorInternalMaxMm / 25.4).toBeCloseTo(0.16407, 5);
  });

  it('says that an engagement is longer than the tolerances are for', async () => {
    const long = await answer({ ...half, engagement: '0.751 in' });
    expect(long.result.assumptions.join(' ')).toMatch(
      /engagements up to 1\.5 diameters \(memory\); this one is longer/,
    );
    const within = await answer({ ...half, engagement: '0.75 in' });
    expect(within.result.assumptions.join(' ')).not.toMatch(/longer/);
    const special = await answer({ ...half, thread: '1-3/8-8 UN', engagement: '1.9 in' });
    expect(special.result.assumptions.join(' ')).toMatch(/nine pitches.*up to 15 pitches/);
    const short = await answer({ ...half, thread: '1-3/8-8 UN', engagement: '1.87 in' });
    expect(short.result.assumptions.join(' ')).not.toMatch(/longer/);
  });

  it('adds what is held of inserts and nuts', async () => {
    const { result } = await answer({
      thread: '1/2-20 UNF-3A',
      internalClass: '3B',
      engagement: '0.61 in',
      insertMaterial: 'A-286',
      strength: 'SAE J429 grade 8',
      internalUltimate: '130 ksi',
    });
    expect((result.insertPullOutN ?? 0) / 4.4482216152605).toBeCloseTo(71265, 0);
    expect((result.lockNutAxialStrengthN ?? 0) / 4.4482216152605).toBeCloseTo(21110, 6);
    expect((result.proofLoadN ?? 0) / 4.4482216152605).toBeCloseTo(120_000 * 0.15995, -2);
    expect((result.loadsN.bolt ?? 0) / (result.proofLoadN ?? 0)).toBeCloseTo(150 / 120, 12);
    expect(result.failsFirst).toBe('bolt');
    expect(result.sources.map(({ key }) => key)).toContain('grades-sae-j429');
    expect(result.sources.map(({ key }) => key)).toContain('nut-strength-nasa-tm-106943');
  });

  it('has areas of an insert from number 2 to 3/4 in, five eighths and seven eighths of the cylinder', async () => {
    const of = async (thread: string) =>
      (await answer({ thread, externalClass: '2A', internalClass: '2B', engagement: '0.1 in' })).result;
    for (const thread of ['#1-64', '.755-16 UN', '7/8-9']) expect((await of(thread)).insertShearAreaMm2).toBeNull();
    for (const [thread, majorIn] of [
      ['#2-56', 0.086],
      ['3/4-10', 0.75],
    ] as const) {
      const { insertShearAreaMm2: areas } = await of(thread);
      const cylinderMm2 = Math.PI * 2.54 * majorIn * 25.4;
      expect(areas?.external).toBeCloseTo((5 / 8) * cylinderMm2, 9);
      expect(areas?.internal).toBeCloseTo((7 / 8) * cylinderMm2, 9);
    }
  });

  it('may be of less than a millimetre', async () => {
    expect((await answer({ ...half, thread: '#0-80', engagement: '0.9 mm' })).result.threadFailsBeforeBolt).toBe(true);
  });

  it('explicit strengths without a proof stress give no proof load', async () => {
    const { result } = await answer({ ...half, strength: { ultimateMPa: 830 } });
    expect(result.proofLoadN).toBeNull();
    expect(result.loadsN.bolt).toBeGreaterThan(0);
  });
});

describe('what is refused', () => {
  it.each<[Record<string, unknown>, string, string, RegExp]>([
    [{ thread: 'M10' }, 'not-held', 'thread', /No published value held.*metric threads.*Give all four limits/],
    [{ thread: '1/4-28 UNJF' }, 'not-held', 'thread', /No published value held.*UNJ/],
    [{ thread: '1/4-28 UNF-1A', externalClass: undefined }, 'not-held', 'thread', /none for 1A/],
    [{ thread: 'nonsense' }, 'unreadable-thread', 'thread', /begin with a size/],
    [{ thread: 5 }, 'wrong-shape', 'thread', /must be a text/],
    [{ thread: '1/2-13 UNC-3A' }, 'contradiction', 'externalClass', /"2A" contradicts.*3A/],
    [{ thread: '1/2-13 UNC-3B' }, 'contradiction', 'internalClass', /"2B" contradicts.*3B/],
    [{ externalClass: '2B' }, 'wrong-shape', 'externalClass', /"2A" or "3A"/],
    [{ internalClass: '6H' }, 'wrong-shape', 'internalClass', /"2B" or "3B"/],
    [{ externalClass: undefined }, 'missing-field', 'externalClass', /is missing/],
    [{ internalClass: undefined }, 'missing-field', 'internalClass', /is missing/],
    [{ engagement: undefined }, 'missing-field', 'engagement', /is missing/],
    [{ engagement: 0.5 }, 'ambiguous-quantity', 'engagement', /bare number/],
    [{ engagement: '0.5' }, 'ambiguous-quantity', 'engagement', /no unit/],
    [{ engagement: '5 N' }, 'wrong-kind', 'engagement', /force/],
    [{ engagement: '0 mm' }, 'out-of-range', 'engagement', /more than 0/],
    [{ engagement: '-1 mm' }, 'out-of-range', 'engagement', /more than 0/],
    [{ engagement: '5.01 in' }, 'out-of-range', 'engagement', /longer than can be.*10 diameters.*127 mm/],
    [{ engagement: '5.0123456 in' }, 'out-of-range', 'engagement', /: 127\.3136 mm is longer/],
    [{ externalUltimate: '0 MPa' }, 'out-of-range', 'externalUltimate', /more than 0/],
    [{ internalUltimate: '-3 ksi' }, 'out-of-range', 'internalUltimate', /more than 0/],
    [{ externalUltimate: '1e9 MPa' }, 'out-of-range', 'externalUltimate', /no material/],
    [{ externalUltimate: 830 }, 'ambiguous-quantity', 'externalUltimate', /"830 MPa"/],
    [{ externalUltimate: '8.8' }, 'ambiguous-quantity', 'externalUltimate', /no unit/],
    [{ strength: '8.8' }, 'out-of-range', 'strength', /metric threads/],
    [{ strength: 'SAE J429 grade 5', externalUltimate: '1 GPa' }, 'contradiction', 'strength', /together/],
    [{ strength: { yieldMPa: 640 } }, 'missing-field', 'strength.ultimateMPa', /tensile strength/],
    [{ insertMaterial: 'brass' }, 'not-held', 'insertMaterial', /"brass".*A-286/],
    [{ thread: '1-8', insertMaterial: 'A-286' }, 'out-of-range', 'insertMaterial', /3\/4 in/],
    [{ depth: '5 mm' }, 'wrong-shape', 'depth', /no field known here/],
    [{ limits: { majorExternalMinMm: 12 } }, 'missing-field', 'limits.pitchExternalMinMm', /missing/],
  ])('%j: %s of %s', async (change, code, field, words) => {
    const input = Object.fromEntries(Object.entries({ ...half, ...change }).filter(([, value]) => value !== undefined));
    const found = await refused(input);
    expect(found).toMatchObject({ code, field });
    expect(found.message).toMatch(words);
  });

  it.each<[Partial<(typeof metric)['limits']>, string, RegExp]>([
    [{ majorExternalMinMm: 10.1 }, 'majorExternalMinMm', /above the basic major diameter 10 mm/],
    [{ pitchExternalMinMm: 9.1 }, 'pitchExternalMinMm', /above the basic pitch diameter 9\.025721 mm/],
    [{ minorInternalMaxMm: 8.2 }, 'minorInternalMaxMm', /below the basic minor diameter 8\.376202 mm/],
    [{ pitchInternalMaxMm: 8.9 }, 'pitchInternalMaxMm', /below the basic pitch diameter/],
    [{ majorExternalMinMm: 8.8 }, 'pitchExternalMinMm', /not below majorExternalMinMm/],
    [{ majorExternalMinMm: 8.862 }, 'pitchExternalMinMm', /not below majorExternalMinMm/],
    [{ minorInternalMaxMm: 9.3 }, 'minorInternalMaxMm', /not below pitchInternalMaxMm/],
    [{ minorInternalMaxMm: 9.74, pitchInternalMaxMm: 9.8 }, 'minorInternalMaxMm', /not below majorExternalMinMm/],
    [{ pitchExternalMinMm: 7 }, 'pitchExternalMinMm', /no external thread/],
    [{ pitchInternalMaxMm: 20 }, 'pitchInternalMaxMm', /no internal thread/],
  ])('limits that cannot be: %j', async (change, name, words) => {
    const found = await refused({ ...metric, limits: { ...metric.limits, ...change } });
    expect(found).toMatchObject({ code: 'contradiction', field: `limits.${name}` });
    expect(found.message).toMatch(words);
  });

  it.each([{ pitchExternalMinMm: 7.38 }, { pitchInternalMaxMm: 11.03 }])(
    'limits that leave a sliver of thread are limits: %j',
    async (change) => {
      const { result } = await answer({ ...metric, limits: { ...metric.limits, ...change } });
      expect(Math.min(result.shearAreaExternalMm2, result.shearAreaInternalMm2)).toBeGreaterThan(0);
    },
  );

  it('what is refused of the thread shows the thread', async () => {
    const { field, value } = await refused({ ...half, thread: 'M10' });
    expect(field).toBe('thread');
    expect(value).toMatch(/^M10/);
  });

  it('a limit of 0 or none at all is no limit', async () => {
    expect(await refused({ ...metric, limits: { ...metric.limits, minorInternalMaxMm: 0 } })).toMatchObject({
      code: 'out-of-range',
      field: 'limits.minorInternalMaxMm',
    });
    expect(await refused({ ...metric, limits: { ...metric.limits, minorInternalMaxMm: '8.7 mm' } })).toMatchObject({
      code: 'wrong-shape',
      field: 'limits.minorInternalMaxMm',
    });
  });

  it('names file and line', async () => {
    const text = JSON.stringify({ ...half, engagement: '0 mm' }, null, 1);
    const run = engagement(['--file', 'x.json'], withFile(text));
    await expect(run).rejects.toMatchObject({
      refusal: { code: 'out-of-range', file: 'x.json', row: 5, field: 'engagement', value: '0 mm' },
    });
  });

  it('a file has to be given, once', async () => {
    expect(await refusal()).toMatchObject({ code: 'usage' });
    expect(await refusal('--file')).toMatchObject({ code: 'usage' });
    expect(await refusal('--file', half, half)).toMatchObject({ code: 'usage' });
  });
});

it('a line of a batch gives the object with or without --file', async () => {
  const answers = [];
  for (const line of [
    ['engagement', half],
    ['engagement', '--file', half],
  ]) {
    const given = await runCommand('batch', ['x.jsonl'], withFile(JSON.stringify(line)));
    if (!('lines' in given)) throw new Error('it did not answer in lines');
    for await (const { exit, line: text } of given.lines) answers.push({ exit, text });
  }
  expect(answers).toHaveLength(2);
  expect(answers[0]?.exit).toBe(0);
  expect(answers[1]).toEqual(answers[0]);
});
