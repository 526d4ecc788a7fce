/** Opens these very bytes in the system's own PDF viewer. */
import { shell } from 'electron';
import type { PrintOutcome } from '../../shared-types/ipc.ts';
import type { PrivateTemporary } from '../files/privateTemporary.ts';
import type { Handlers } from '../ipc.ts';
import { HostRefusal } from '../site/refusal.ts';

export function printPdf(temporary: PrivateTemporary): Handlers['printPdf'] {
  return async (_window, { name, bytes }): Promise<PrintOutcome> => {
    // The ending decides which program the system opens, so it is ours to set.
    const path = temporary.write(`${name.replace(/\.pdf$/i, '')}.pdf`, bytes);
    const trouble = await shell.openPath(path);
    if (trouble !== '') {
      throw new HostRefusal({ code: 'not-available', message: `No program here opened the PDF: ${trouble}` });
    }
    return { opened: true, address: null };
  };
}
