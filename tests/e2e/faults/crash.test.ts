/** R28: a form half written when the browser, everything, or the page ends. `npm run faults -- --only F13` is the long form. */
import { it } from 'vitest';
import { crashesWithForm } from '../../campaign/crashes.ts';
import { expectSurvived } from '../../campaign/support/survived.ts';

it('has what was typed again after kill -9 of the browser, of everything, and a crash of the page', async () => {
  await expectSurvived(crashesWithForm, 3, 8);
});
