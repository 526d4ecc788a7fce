import { describe, expect, it } from 'vitest';
import { bag } from '../../../electron/headless/commands/bag.ts';
import type { BagResult } from '../../../shared-types/bag.ts';
import type { BagReasons } from '../../../shared-types/bagReasons.ts';
import type { Edit } from '../../support/editJson.ts';
import { put } from '../../support/editJson.ts';
import { smallPlan } from '../../support/smallPlan.ts';
import { told } from './inProcess.ts';

type Answer = BagResult & { basis: string[]; reasons?: BagReasons };

async function answer(edit: Edit, ...options: string[]): Promise<{ exit: number; result: Answer }> {
  const plan = smallPlan();
  edit(plan);
  const given = await told<Answer>('bag', plan, ...options);
  if (given.exit === 2) throw new Error(given.error.message);
  return given;
}

const asItIs: Edit = () => undefined;

describe('bag --reasons', () => {
  it('adds one field and changes nothing else', async () => {
    const plain = await answer(asItIs);
    const { exit, result } = await answer(asItIs, '--reasons');
    const { reasons, ...rest } = result;
    expect(plain.result).not.toHaveProperty('reasons');
    expect(rest).toEqual(plain.result);
    expect(exit).toBe(plain.exit);
    expect(reasons && Object.keys(reasons)).toEqual([
      'without',
      'tolerance',
      'limits',
      'limitsTogether',
      'conflicts',
      'losses',
    ]);
    expect(reasons?.without.find(({ id }) => id === 'X-3')).toMatchObject({
      outcome: 'proven',
      cost: { value: expect.closeTo(0.09, 12) as number },
    });
    expect(reasons?.tolerance[0]).toMatchObject({ tolerance: 'nothing', outcome: 'proven', total: { value: 1.91 } });
    expect(reasons?.limits.find(({ limit }) => limit.kind === 'massMax')).toMatchObject({ binds: false, allowed: 4 });
  });

  it('is of what is minimised', async () => {
    const { result } = await answer(asItIs, '--reasons', '--minimise', 'count');
    expect(result.reasons?.without.map(({ unit }) => unit)).toContain('pieces');
    expect(result.reasons?.tolerance[0]?.total?.value).toBe(6);
  });

  it('is of the bag with what is asked of it', async () => {
    const { result } = await answer(asItIs, '--reasons', '--keep', 'X-6=1', '--forbid', 'S-9/16-12');
    expect(result.reasons?.without.find(({ id }) => id === 'X-6')).toMatchObject({ againstWish: true });
    expect(result.reasons?.limits.map(({ limit }) => limit.kind)).toEqual(expect.arrayContaining(['keep', 'forbid']));
    // Its own socket is the only one left.
    expect(result.reasons?.without.find(({ id }) => id === 'S-9/16')?.outcome).toBe('infeasible');
  });

  it('says which piece’s loss a step does not survive where one is to be stood', async () => {
    const { exit, result } = await answer(asItIs, '--reasons', '--single-loss');
    expect(exit).toBe(1);
    expect(result.reasons?.losses.map(({ step, lost }) => [step, lost])).toEqual([
      ['loosen', { piece: 'R-38' }],
      ['tighten', { piece: 'TT-2' }],
    ]);
    expect(result.reasons?.tolerance.map(({ tolerance, outcome }) => [tolerance, outcome])).toEqual([
      ['nothing', 'proven'],
      ['piece', 'infeasible'],
      ['bag', 'infeasible'],
    ]);
  });

  it('says which steps do not go together, with the limit', async () => {
    const { exit, result } = await answer(put('catalog.bags[0].itemsMax', 3), '--reasons');
    expect(exit).toBe(1);
    expect(result.reasons?.conflicts).toMatchObject([
      { steps: ['loosen', 'tighten'], eased: [{ limit: { kind: 'itemsMax', bag: 'B-1' }, allowed: 3, needs: 4 }] },
    ]);
  });

  it.each(['text', 'csv'])('is in words in %s', async (format) => {
    const io = {
      readText: () => Promise.resolve(JSON.stringify(smallPlan())),
      readBytes: () => Promise.reject(new Error('this command reads text')),
      async *readLines() {
        yield* [];
      },
      inBatch: false,
      run: () => Promise.reject(new Error('no batch')),
    };
    const given = await bag(['plan.json', '--reasons', '--format', format], io);
    const said = given.text?.replaceAll(/\n +/g, ' ');
    expect(said).toContain('without TT-2: fails; step tighten');
    expect(said).toContain('nothing may be lost: 1.91 kg (proved)');
    expect(said).toContain('bag B-1: mass 4 kg does not bind; 2.59 kg to spare');
    expect((await bag(['plan.json', '--format', format], io)).text).not.toContain('without TT-2');
  });

  it('comes to the same bytes again', async () => {
    const edit = put('catalog.bags[0].massMax', '2 kg');
    const once = await answer(edit, '--reasons');
    expect(JSON.stringify(once.result)).toBe(JSON.stringify((await answer(edit, '--reasons')).result));
  });
});
