/** R4, R26 and R27 in their short forms: `npm run faults -- --only F4,F9,F11` is the long one. */
import { describe, expect, it } from 'vitest';
import { calibrationDays, clockJumps } from '../campaign/clocks.ts';
import { powerLoss } from '../campaign/powerLoss.ts';
import { powerDisk } from '../campaign/support/powerDisk.ts';
import { expectSurvived } from '../campaign/support/survived.ts';
import { truncatedImports } from '../campaign/truncatedImports.ts';
import { dice } from '../reference/dice.ts';

describe('power that goes in the middle of writing', () => {
  it('takes nothing that was synced, and what is left of the rest is told', () => expectSurvived(powerLoss, 60));

  it('leaves of a file what was synced of it, and of a name what its folder had', async () => {
    const left = { bytes: new Set<number>(), names: new Set<boolean>() };
    for (let seed = 0; seed < 40; seed += 1) {
      const disk = powerDisk();
      await disk.mkdir('/f', { mode: 0o700 });
      const file = await disk.open('/f/a', 'a');
      await file.write(Buffer.from('kept'));
      await file.datasync();
      await (await disk.open('/f', 'r')).sync();
      await file.write(Buffer.from('lost or not'));
      await disk.open('/f/b', 'a');
      const after = disk.afterLoss(dice(seed), 512);
      const bytes = await after.readFile('/f/a');
      expect(bytes.subarray(0, 4).toString()).toBe('kept');
      left.bytes.add(bytes.length);
      left.names.add((await after.readdir('/f')).includes('b'));
    }
    expect(left.bytes.has(4) && left.bytes.has(15)).toBe(true);
    expect(left.names).toEqual(new Set([true, false]));
  });
});

it('a clock that jumps changes no order, is flagged where it goes back, and is mended nowhere', async () => {
  await expectSurvived(clockJumps, 12);
  await expectSurvived(calibrationDays, 200);
});

it('a file that is broken off is refused with its place, or every row before is what stands in it', () =>
  expectSurvived(truncatedImports, 150));
