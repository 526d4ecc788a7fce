/** Writing broken off, in its short form: `npm run faults -- --only F1` is the long one. */
import { expect, it } from 'vitest';
import { pageReloads, programKills } from '../../campaign/programKills.ts';
import { expectSurvived } from '../../campaign/support/survived.ts';

it('loses no act that was called saved and keeps no act by halves, over kill -9 in a burst of writes', async () => {
  expect((await expectSurvived(programKills, 9)).trials).toBe(9);
});

it('nor over pages loaded again in the middle of a save', async () => {
  expect((await expectSurvived(pageReloads, 6)).trials).toBe(6);
});
