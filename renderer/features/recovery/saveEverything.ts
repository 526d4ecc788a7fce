import type { Host } from '../../../shared-types/host.ts';
import { largestBodyBytes } from '../../../shared-types/ipc.ts';
import { dayAndClockText } from '../../store/clock.ts';
import type { Store } from '../../store/store.ts';

/** @returns the names of the files written, or null where the choice was put off */
export async function saveEverything(
  store: Pick<Store, 'exportAll'>,
  host: Pick<Host, 'saveFile'>,
  at: Date,
): Promise<string[] | null> {
  const bytes = new TextEncoder().encode(await store.exportAll());
  const parts = Math.ceil(bytes.length / largestBodyBytes);
  const base = `bagwright-everything-${dayAndClockText(at).replaceAll(/[: ]/g, '-')}`;
  const names: string[] = [];
  for (let part = 0; part < parts; part += 1) {
    // What is more than one file may hold is cut; put together again in order, the parts are the one text.
    const name = parts === 1 ? `${base}.json` : `${base}.part-${part + 1}-of-${parts}.json`;
    const piece = bytes.slice(part * largestBodyBytes, (part + 1) * largestBodyBytes);
    const written = await host.saveFile({ name, mediaType: 'application/json', bytes: piece });
    if (!written) return null;
    names.push(name);
  }
  return names;
}
