import { describe, expect, it } from 'vitest';
import { createSaver, whyNotSaved } from '../../renderer/store/saver.ts';
import { becomeWriter } from '../../renderer/store/writer.ts';
import { freshDb } from './support/openWindow.tsx';

const at = new Date(2026, 0, 2, 10, 42);
const failure = (name: string): Error => Object.assign(new Error('no'), { name });

describe('the save state', () => {
  it('says saved only once the row is in the real store', async () => {
    const db = await freshDb();
    const saver = createSaver(() => at);
    const seen: string[] = [];
    saver.subscribe(() => seen.push(saver.state().kind));
    saver.save('the plan', () => db.plan.put({ key: 'plan', name: 'a', text: '{}', openedAt: 'now' }));
    expect(saver.state().kind).toBe('saving');
    await saver.settled();
    expect(saver.state()).toEqual({ kind: 'saved', at });
    expect((await db.plan.get('plan'))?.name).toBe('a');
    expect(seen.at(0)).toBe('saving');
    expect(seen.at(-1)).toBe('saved');
  });

  it.each([
    'AbortError',
    'UnknownError',
    'BulkError',
    'DatabaseClosedError',
    'InvalidStateError',
    'QuotaExceededError',
  ])('ends in NOT SAVED after %s and stays there until the same thing is written', async (name) => {
    const saver = createSaver(() => at);
    saver.save('the plan', () => Promise.reject(failure(name)));
    await saver.settled();
    expect(saver.state().kind).toBe('not-saved');
    saver.save('the preferences', () => Promise.resolve());
    await saver.settled();
    expect(saver.state().kind).toBe('not-saved');
    saver.save('the plan', () => Promise.resolve());
    await saver.settled();
    expect(saver.state().kind).toBe('saved');
  });

  it('writes nothing and never says saved where another window writes', async () => {
    const saver = createSaver(() => at);
    const seen: string[] = [];
    saver.leaveToOther();
    expect(saver.state()).toEqual({ kind: 'elsewhere', heldBack: false });
    saver.subscribe(() => seen.push(saver.state().kind));
    let written = 0;
    saver.save('the plan', () => Promise.resolve((written += 1)));
    saver.retry();
    await saver.settled();
    expect(written).toBe(0);
    expect(saver.state()).toEqual({ kind: 'elsewhere', heldBack: true });
    expect(new Set(seen)).toEqual(new Set(['elsewhere']));
  });

  it('writes again what failed when asked to', async () => {
    let works = false;
    let written = 0;
    const saver = createSaver(() => at);
    saver.save('the plan', async () => {
      if (!works) throw failure('QuotaExceededError');
      written += 1;
    });
    await saver.settled();
    saver.retry();
    await saver.settled();
    expect(saver.state().kind).toBe('not-saved');
    works = true;
    saver.retry();
    await saver.settled();
    expect(saver.state().kind).toBe('saved');
    expect(written).toBe(1);
  });

  it('does not call a store saved that never answers', async () => {
    const saver = createSaver(() => at, 30);
    saver.save('the plan', () => new Promise(() => undefined));
    await new Promise((resolve) => setTimeout(resolve, 80));
    expect(saver.state()).toEqual({ kind: 'not-saved', reason: 'the store has not answered for 0.03 s' });
  });

  it('keeps the order and drops what a later write replaces', async () => {
    const order: string[] = [];
    const saver = createSaver(() => at);
    const write = (what: string) => async (): Promise<void> => void order.push(what);
    saver.save('first', write('first'));
    saver.save('name', write('name: A'));
    saver.save('name', write('name: AB'));
    await saver.settled();
    expect(order).toEqual(['first', 'name: AB']);
  });

  it('names a full disk as one', () => {
    expect(whyNotSaved(failure('QuotaExceededError'))).toContain('full');
    expect(whyNotSaved(failure('AbortError'))).toContain('AbortError');
  });
});

describe('the writer among windows', () => {
  const frame = (): Window => {
    const element = document.createElement('iframe');
    document.body.append(element);
    if (element.contentWindow === null) throw new Error('A frame has a window.');
    return element.contentWindow;
  };

  it('is the first one open, until that one is closed', async () => {
    const [first, second] = [frame(), frame()];
    expect(await becomeWriter(first.navigator.locks)).toBe(true);
    expect(await becomeWriter(second.navigator.locks, { attempts: 2, apartMs: 20 })).toBe(false);
    first.frameElement?.remove();
    expect(await becomeWriter(second.navigator.locks)).toBe(true);
    second.frameElement?.remove();
  });
});
