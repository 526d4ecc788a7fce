/** Acceptance R16 at the level of one revision: edit, delete, swap, duplicate are found with their number; a cut end by the printed head. */
import { describe, expect, it } from 'vitest';
import type { OutingEvent, Revision } from '../../../shared-types/records/revision.ts';
import { chained, chainFault, contentHash, eventHash } from '../../../renderer/engine/record/chain.ts';
import type { EventDraft } from '../../../renderer/engine/record/chain.ts';
import { canonicalJson } from '../../../shared-types/canonicalJson.ts';
import { dice } from '../../reference/dice.ts';
import type { Dice } from '../../reference/dice.ts';
import { digest, mapRevision } from '../../support/frozenTask.ts';

const people = [
  { name: 'P. Packer', role: 'packer' },
  { name: 'S. Second', role: 'second counter' },
] as const;

/** So many acts of packing, some with texts that a sloppy hash would lose. */
function draftsOf(roll: Dice, count: number): EventDraft[] {
  return Array.from({ length: count }, (_, at): EventDraft => {
    const who = roll.pick(people);
    const base = {
      id: `e-${at}`,
      at: `2026-11-26T08:${String(at % 60).padStart(2, '0')}:00+01:00`,
      by: who,
      outing: 'o',
    };
    const counts = { bag: 'L', item: 'S-13', pieces: roll.whole(0, 9), parts: roll.whole(0, 9) };
    return roll.pick([
      { ...base, deed: { kind: 'counted', ...counts } },
      { ...base, deed: { kind: 'missing', ...counts, reason: 'lent \u202E out ½' } },
      { ...base, deed: { kind: 'remark', words: 'naïve “quotes”\n\u0000' } },
      { ...base, deed: { kind: 'bag-closed', bag: 'L', second: people[1] } },
    ] satisfies EventDraft[]);
  });
}

async function chainOf(seed: number, count = 12): Promise<{ revision: Revision; events: OutingEvent[] }> {
  const revision = await mapRevision();
  return { revision, events: await chained(revision, null, draftsOf(dice(seed), count), digest) };
}

/** One leaf of an event changed: text, number, name of a field, clock, person. */
function edited(event: OutingEvent, roll: Dice): OutingEvent {
  const copy = structuredClone(event);
  const change = roll.pick(['at', 'name', 'role', 'outing', 'deed', 'id', 'prev', 'hash'] as const);
  if (change === 'at') copy.at = copy.at.replace('08:', '09:');
  else if (change === 'name') copy.by.name = `${copy.by.name}x`;
  else if (change === 'role') copy.by.role = copy.by.role === 'packer' ? 'second counter' : 'packer';
  else if (change === 'outing') copy.outing = 'p';
  else if (change === 'id') copy.id = `${copy.id}x`;
  else if (change === 'prev') copy.prev = copy.prev.replace(/^./, (digit) => (digit === '0' ? '1' : '0'));
  else if (change === 'hash') copy.hash = copy.hash.replace(/.$/, (digit) => (digit === '0' ? '1' : '0'));
  else if (copy.deed.kind === 'counted' || copy.deed.kind === 'missing') copy.deed.pieces += 1;
  else if (copy.deed.kind === 'remark') copy.deed.words = copy.deed.words.normalize('NFD');
  else copy.deed = { kind: 'bag-closed', bag: 'C' };
  return copy;
}

describe('a chain of events', () => {
  it('is whole as it was written, in whatever order it is handed over, and goes on from its last event', async () => {
    const { revision, events } = await chainOf(1);
    expect(await chainFault(revision, events.toReversed(), digest)).toBeNull();
    expect(events.map(({ no }) => no)).toEqual(events.map((_, at) => at + 1));
    expect(events[0]?.prev).toBe(revision.hash);
    const more = await chained(revision, events.at(-1) ?? null, draftsOf(dice(2), 3), digest);
    expect(await chainFault(revision, [...events, ...more], digest)).toBeNull();
    expect(await chainFault(revision, [], digest)).toBeNull();
  });

  it('hashes the canonical JSON without the event’s own hash and the count of its changes', async () => {
    const { events } = await chainOf(3);
    for (const { hash, rev: _rev, ...body } of events) {
      // SHA-256 by Node’s own library, of the text written out here.
      const { createHash } = await import('node:crypto');
      expect(createHash('sha256').update(canonicalJson(body), 'utf8').digest('hex')).toBe(hash);
      expect(await eventHash({ ...body }, digest)).toBe(hash);
    }
  });

  it('shows 400 seeded damages, each with the number where it begins', async () => {
    const { revision, events } = await chainOf(4, 20);
    const roll = dice(400);
    const told = { edit: 0, remove: 0, swap: 0, twice: 0 };
    for (let trial = 0; trial < 400; trial += 1) {
      const kind = (['edit', 'remove', 'swap', 'twice'] as const)[trial % 4] ?? 'edit';
      // Taking the last away is a cut end, which only the printed head shows.
      const at = roll.whole(0, kind === 'remove' || kind === 'swap' ? events.length - 2 : events.length - 1);
      const event = events[at];
      if (event === undefined) throw new Error('there are twenty');
      let damaged = [...events];
      if (kind === 'edit') damaged[at] = edited(event, roll);
      else if (kind === 'remove') damaged = events.filter((one) => one !== event);
      else if (kind === 'twice') damaged.push(structuredClone(event));
      else {
        const next = events[at + 1];
        if (next === undefined) throw new Error('it is not the last');
        // What was done changes places; the numbers stay in order.
        damaged[at] = { ...next, no: event.no };
        damaged[at + 1] = { ...event, no: next.no };
      }
      const fault = await chainFault(revision, damaged, digest);
      expect(fault?.no, `${kind} of ${at + 1}, trial ${trial}`).toBe(at + 1);
      told[kind] += 1;
    }
    expect(told).toEqual({ edit: 100, remove: 100, swap: 100, twice: 100 });
  });

  it('shows a changed manifest before any event', async () => {
    const { revision, events } = await chainOf(5);
    const lines = revision.content.lines.map((line, at) =>
      at === 0 ? { ...line, quantity: line.quantity + 1 } : line,
    );
    const other = { ...revision, content: { ...revision.content, lines } };
    expect(await chainFault(other, events, digest)).toMatchObject({ no: 0 });
    // With a hash to match it, its events follow it no more.
    const hash = await contentHash(other.content, digest);
    expect(await chainFault({ ...other, hash }, events, digest)).toMatchObject({ no: 1 });
  });

  it('shows an event of another revision', async () => {
    const { revision, events } = await chainOf(6);
    const other = events.map((event, at) => (at === 4 ? { ...event, revision: 'rev-2' } : event));
    expect(await chainFault(revision, other, digest)).toMatchObject({
      no: 5,
      reason: 'it belongs to another revision',
    });
  });

  it('shows a cut end 100 times of 100 where the printed head is given, and never without it', async () => {
    const { revision, events } = await chainOf(7, 20);
    const head = events.at(-1)?.hash ?? '';
    const printed = [head, `${head.slice(0, 4)} ${head.slice(4, 8)}`, head.toUpperCase(), head.slice(0, 8)];
    expect(await chainFault(revision, events, digest, printed[1])).toBeNull();
    const roll = dice(100);
    for (let trial = 0; trial < 100; trial += 1) {
      const kept = events.slice(0, roll.whole(0, events.length - 1));
      expect(await chainFault(revision, kept, digest)).toBeNull();
      expect(await chainFault(revision, kept, digest, roll.pick(printed)), `trial ${trial}`).toMatchObject({
        no: kept.length,
      });
    }
  });
});
