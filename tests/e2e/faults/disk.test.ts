/** R5 at the window: the disk is full, and no one is told that it was saved. `npm run faults -- --only F5` is the long form. */
import { it } from 'vitest';
import { fullWindow } from '../../campaign/fullDisk.ts';
import { expectSurvived } from '../../campaign/support/survived.ts';

it('says NOT SAVED within a second of a full disk and never Saved, until it is: full at a write, at a sync, once and again', async () => {
  await expectSurvived(fullWindow, 8);
});
