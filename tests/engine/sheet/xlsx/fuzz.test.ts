/** Workbooks damaged otherwise are among `npm run faults -- --only F16`; here every length is tried. */
import { expect, it } from 'vitest';
import { RefusedError } from '../../../../renderer/engine/errors.ts';
import { sound, wholeWorkbook } from '../../../campaign/parsers/tables.ts';

it('a workbook is refused wherever it is broken off', () => {
  for (let length = 0; length < sound.length; length += 1)
    expect(() => wholeWorkbook(sound.slice(0, length)), `${length} bytes`).toThrow(RefusedError);
});
