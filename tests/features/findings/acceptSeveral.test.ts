/** Findings of several rows accepted at once: one act, and each row keeps its own acceptances. */
import { describe, expect, it } from 'vitest';
import type { KeptCallout } from '../../../shared-types/records/judgedLists.ts';
import type { Finding } from '../../../shared-types/judged.ts';
import { acceptSeveral, openOn, rulesAmong, severalText } from '../../../renderer/features/judged/acceptSeveral.ts';
import { acceptFinding } from '../../../renderer/features/callouts/calloutActs.ts';
import { acceptableAmong } from '../../../renderer/features/findings/acceptableAmong.ts';
import type { FoundLine } from '../../../renderer/features/findings/openFindings.ts';

const finding = (rule: string, severity: Finding['severity'], message = `${rule} says so`): Finding => ({
  ...{ rule, severity, message, source: 'common practice, no source' },
});
const row = (id: string, accepted?: KeptCallout['accepted']): KeptCallout => ({
  ...{ id, rev: 3, list: 'list', position: 1, cells: { id } },
  ...(accepted === undefined ? {} : { accepted }),
});
const earlier = {
  rule: 'empty-band',
  message: 'empty-band says so',
  reason: 'Note 1',
  person: 'Q.',
  at: '2026-01-01T00:00:00Z',
};
const given = { reason: 'Waiver 12', person: 'S. Quill', at: '2026-05-01T10:00:00+02:00' };
const rows = [row('a'), row('b', [earlier]), row('c')];
const found = [
  { key: 'a', row: { findings: [finding('empty-band', 'reject'), finding('fit', 'query'), finding('hint', 'note')] } },
  { key: 'b', row: { findings: [finding('empty-band', 'reject'), finding('fit', 'query')] } },
  { key: 'c', row: null },
  { key: 'd', row: { findings: [finding('empty-band', 'reject')] } },
];

describe('what is open on the rows chosen', () => {
  it('is every reject and query that nobody has accepted, no note, and nothing of other rows', () => {
    const open = openOn('callouts', rows, found);
    expect(open.map(({ row: of, finding: { rule } }) => `${of.id} ${rule}`)).toEqual([
      'a empty-band',
      'a fit',
      'b fit',
    ]);
    expect(rulesAmong(open)).toEqual([
      { rule: 'fit', count: 2 },
      { rule: 'empty-band', count: 1 },
    ]);
    expect(severalText(open)).toBe('3 findings on 2 callouts');
  });
});

describe('accepting all of it', () => {
  it('is one act with one version of each row, each acceptance beside those it had', () => {
    const act = acceptSeveral(openOn('callouts', rows, found), given);
    expect(act.title).toBe('Accept 3 findings on 2 callouts');
    expect(act.undoable).not.toBe(false);
    const taken = (rule: string) => ({ rule, message: `${rule} says so`, ...given });
    expect(act.proposals).toEqual([
      { table: 'callouts', put: { ...row('a'), accepted: [taken('empty-band'), taken('fit')] } },
      { table: 'callouts', put: { ...row('b'), accepted: [earlier, taken('fit')] } },
    ]);
  });

  it('keeps of one finding just what accepting it alone keeps', () => {
    const [, , last] = openOn('callouts', rows, found);
    if (last === undefined) throw new Error('nothing is open');
    const alone = acceptFinding(last.row, { rule: last.finding.rule, message: last.finding.message, ...given });
    expect(acceptSeveral([last], given).proposals).toEqual(alone.proposals);
  });
});

describe('findings chosen in the place of all findings', () => {
  const line = (key: string, over: Partial<FoundLine> = {}): FoundLine => ({
    ...{ key, kind: 'callouts', list: { id: 'l', name: 'L' }, row: 'a', id: 'A', cells: {} },
    ...{ finding: finding('fit', 'query'), message: '', accepted: null },
    ...over,
  });
  const kept = { callouts: new Map([['a', row('a')]]), asRuns: new Map([['r', row('r')]]) };
  it('are accepted over callouts and records alike, but for what is accepted, unreadable or no longer kept', () => {
    const items = acceptableAmong(
      [
        line('1'),
        line('2', { kind: 'as-run', row: 'r' }),
        line('3', { accepted: earlier }),
        line('4', { finding: null }),
        line('5', { row: 'gone' }),
        line('6', { kind: 'as-run', row: 'a' }),
      ],
      kept,
    );
    expect(items.map(({ table, row: of }) => `${table} ${of.id}`)).toEqual(['callouts a', 'asRuns r']);
    expect(acceptSeveral(items, given)).toMatchObject({
      title: 'Accept 2 findings on 2 rows',
      proposals: [{ table: 'callouts' }, { table: 'asRuns', put: { id: 'r', accepted: [given] } }],
    });
  });
});
