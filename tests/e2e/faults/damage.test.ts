/** The browser's files damaged in each of eight ways, then the real window: `npm run faults -- --only F7` is the long form. */
import { it } from 'vitest';
import { profileDamages } from '../../campaign/profileDamages.ts';
import { expectSurvived } from '../../campaign/support/survived.ts';
import { damageNames } from '../support/profileDamage.ts';

it(`never shows less than was saved after: ${damageNames.join(', ')}`, async () => {
  await expectSurvived(profileDamages, damageNames.length);
}, 600_000);
