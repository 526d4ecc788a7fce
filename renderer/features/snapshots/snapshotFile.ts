import type { FileToSave, SnapshotHost } from '../../../shared-types/host.ts';
import { snapshotText } from '../../engine/everything/readSnapshotText.ts';
import { sha256 } from '../../store/sha256.ts';
import { readSnapshotWhole } from './readSnapshotWhole.ts';

/** A snapshot as a file to take along: read from its first byte, every record checked, and written anew. */
export async function snapshotFile(host: SnapshotHost, name: string): Promise<FileToSave> {
  const { head, tables } = await readSnapshotWhole(host, name);
  return { name, mediaType: 'text/plain', bytes: new TextEncoder().encode(await snapshotText(head, tables, sha256)) };
}
