import { describe, expect, it } from 'vitest';
import type { RecordFile } from '../../../shared-types/recordFile.ts';
import type { Discrepancy, OutingEvent } from '../../../shared-types/records/revision.ts';
import { RefusedError } from '../../../renderer/engine/errors.ts';
import { chained } from '../../../renderer/engine/record/chain.ts';
import { intoKept } from '../../../renderer/engine/record/intoKept.ts';
import { readRecordFile, recordFileFault, recordFileText } from '../../../renderer/engine/record/recordFile.ts';
import { dice } from '../../reference/dice.ts';
import { digest } from '../../support/frozenTask.ts';
import { discrepancy, eventsOf, twoRevision, wentOut } from '../../support/outAndBack.ts';

const events: OutingEvent[] = await chained(twoRevision, null, eventsOf(wentOut), digest);
const discrepancies = [discrepancy()];
const text = await recordFileText({ revision: twoRevision, events, discrepancies }, digest);

const refusal = (broken: string) => {
  try {
    readRecordFile(broken, 'r.json');
  } catch (error) {
    if (error instanceof RefusedError) return error.refusal;
    throw error;
  }
  return null;
};
/** What is found wrong with a text, in whatever way. */
async function found(broken: string): Promise<string | null> {
  const refused = refusal(broken);
  if (refused !== null) return refused.message;
  return (await recordFileFault(readRecordFile(broken), digest, { text: broken }))?.reason ?? null;
}

describe('a manifest with its record as one file', () => {
  it('is read as it was written, each event on a line of its own', () => {
    const file = readRecordFile(text, 'r.json');
    const { rev: _, ...revision } = twoRevision;
    expect(file.revision).toEqual(revision);
    expect(file.events.map(({ no, hash }) => [no, hash])).toEqual(events.map(({ no, hash }) => [no, hash]));
    expect(text.split('\n').filter((line) => line.startsWith('{"id":"e-o-'))).toHaveLength(events.length);
  });

  it('holds, and holds to a head that was printed', async () => {
    const file = readRecordFile(text);
    expect(await recordFileFault(file, digest)).toBeNull();
    const by = (no: number | null, hash: string) =>
      recordFileFault(file, digest, { head: { no, hash: hash.slice(0, 8) } });
    for (const { no, hash } of events) expect([await by(no, hash), await by(null, hash)]).toEqual([null, null]);
    expect(await by(0, twoRevision.hash)).toBeNull();
    expect(await by(null, '00000000')).toMatchObject({ no: 6, reason: expect.stringContaining('none has the hash') });
    expect(await by(7, events[5]?.hash ?? '')).toMatchObject({ reason: 'it ends with event 6; event 7 was printed' });
    expect(await by(5, events[5]?.hash ?? '')).toMatchObject({ reason: 'event 5 is not the one that was printed' });
  });

  it('is found changed by any one byte of what it says', async () => {
    const chance = dice(4);
    for (let round = 0; round < 50; round += 1) {
      const at = chance.whole(0, text.length - 3);
      const was = text[at] ?? '';
      // Line breaks between lines say nothing.
      if (was === '\n') continue;
      const other = was === '7' ? '8' : '7';
      const broken = `${text.slice(0, at)}${other}${text.slice(at + 1)}`;
      expect(await found(broken), `byte ${at}, ${JSON.stringify(text.slice(at - 8, at + 8))}`).not.toBeNull();
    }
  });

  it('names the first event that does not hold, with its line', async () => {
    const broken = text.replace('"item":"S-13","pieces":1', '"item":"S-13","pieces":2');
    expect(await recordFileFault(readRecordFile(broken), digest, { text: broken })).toEqual({
      ...{ no: 2, reason: 'its content is not what its hash says' },
      row: text.slice(0, text.indexOf('"no":2')).split('\n').length,
    });
    const lines = text.split('\n');
    const cut = lines.filter((line) => !line.includes('"no":3')).join('\n');
    expect(await recordFileFault(readRecordFile(cut), digest)).toMatchObject({
      no: 3,
      reason: 'event 3 is gone: event 4 follows',
    });
  });

  it('finds what no event is chained to: a heading, a discrepancy', async () => {
    expect(await found(text.replace('First issue', 'Last issue'))).toMatch(/its heading or a discrepancy was changed/);
    expect(
      await found(text.replace('"parts":2},"opened"', '"parts":1},"opened"').replace('as it left', 'as it lay')),
    ).toMatch(/its heading or a discrepancy was changed/);
  });

  it('is refused where it is something else, with field and row', () => {
    expect(refusal('{"task":1}')).toMatchObject({ code: 'wrong-shape', field: 'bagwright', file: 'r.json' });
    expect(refusal(text.replace('"version":1', '"version":2'))).toMatchObject({ code: 'not-available', value: 2 });
    expect(refusal(text.replace('"no":2,', '"no":"2",'))).toMatchObject({
      code: 'wrong-shape',
      field: 'events[1].no',
      row: 5,
    });
    expect(refusal(text.replace('"version":1', '"version":1,"also":1'))).toMatchObject({ field: 'also' });
    expect(refusal(`${'['.repeat(40)}${']'.repeat(40)}`)).toMatchObject({ code: 'too-deep' });
    expect(refusal(text.replace('"head"', '"hash":"x","head"'))).toMatchObject({ code: 'duplicate-key' });
  });
});

describe('bringing it in', () => {
  const file: RecordFile = readRecordFile(text);
  const broughtIn = { file: 'r.json', at: '2026-11-27T08:00:00+01:00', person: 'A' };
  const into = (kept: Partial<Parameters<typeof intoKept>[1]>, given = file) =>
    intoKept(given, { revisions: [], events: [], discrepancies: [], ...kept }, { task: 'here', broughtIn });
  const here = { ...twoRevision, task: 'here' };
  const reasonOf = (result: ReturnType<typeof into>) => (result.kind === 'refused' ? result.reason : result.kind);

  it('adds everything to a task that has none of it', () => {
    const result = into({});
    expect(result).toMatchObject({
      kind: 'more',
      brought: { revision: { task: 'here', rev: 0, broughtIn }, discrepancies: [{ task: 'here', number: 1 }] },
    });
    expect(result.kind === 'more' && result.brought.events).toHaveLength(events.length);
  });

  it('changes nothing where all of it is kept, and adds what came since', () => {
    expect(into({ revisions: [here], events, discrepancies }).kind).toBe('same');
    const more = into({ revisions: [here], events: events.slice(0, 4), discrepancies });
    expect(more).toMatchObject({
      kind: 'more',
      brought: { revision: null, events: [{ no: 5 }, { no: 6 }], discrepancies: [] },
    });
    // Here it went on: the file is older.
    const [last] = eventsOf([{ kind: 'remark', words: 'later' }], { from: 7 });
    expect(
      into({ revisions: [here], events: [...events, ...(last === undefined ? [] : [last])], discrepancies }).kind,
    ).toBe('same');
  });

  it('refuses a number that another content has, and a record that parted', () => {
    const other = { ...here, id: 'rev-x', hash: 'f'.repeat(64) };
    expect(reasonOf(into({ revisions: [other] }))).toMatch(
      /^Revision 2 of this task is another one here: another content/,
    );
    expect(reasonOf(into({ revisions: [{ ...here, id: 'rev-x' }] }))).toMatch(/the same content, frozen apart/);
    const parted = events.map((event) => (event.no === 5 ? { ...event, hash: 'e'.repeat(64) } : event));
    expect(reasonOf(into({ revisions: [here], events: parted }))).toMatch(/event 5 is not the file’s event 5/);
  });

  it('takes a closing over, and refuses two closings', () => {
    const closing = {
      at: '2026-11-27T08:00:00+01:00',
      by: { name: 'A', role: 'b' },
      how: 'found' as const,
      words: 'in the boat',
    };
    const closed: RecordFile = {
      ...file,
      discrepancies: file.discrepancies.map((one) => ({ ...one, closed: closing })),
    };
    const kept = { revisions: [here], events };
    const open: Discrepancy[] = [{ ...discrepancy(), task: 'here', rev: 3 }];
    expect(into({ ...kept, discrepancies: open }, closed)).toMatchObject({
      brought: { discrepancies: [{ rev: 3, closed: { how: 'found' } }] },
    });
    const otherwise = open.map((one) => ({ ...one, closed: { ...closing, how: 'lost' as const } }));
    expect(reasonOf(into({ ...kept, discrepancies: otherwise }, closed))).toMatch(
      /^D-1 was closed in another way here, by A/,
    );
    expect(into({ ...kept, discrepancies: otherwise }).kind).toBe('same');
    const taken = [{ ...discrepancy({ id: 'd-9' }), task: 'here' }];
    expect(reasonOf(into({ ...kept, discrepancies: taken }))).toMatch(/^D-1 of this task is another one here/);
  });
});
