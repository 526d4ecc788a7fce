/** What the disk would not do, in plain words. */
import { codeOf } from '../files/disk.ts';
import { HostRefusal } from '../site/refusal.ts';

const words: Readonly<Record<string, string>> = {
  ENOSPC: 'the disk is full',
  EDQUOT: 'the share of the disk this user may fill is full',
  EIO: 'the disk reports an error',
  EROFS: 'the disk may only be read',
  EACCES: 'this user may not write there',
  EPERM: 'the system does not permit it',
  EBUSY: 'another program holds the file',
  ENOENT: 'the folder or file is gone',
  ENOTDIR: 'a file lies where a folder should be',
  EEXIST: 'something else of that name is there',
  ENOTEMPTY: 'something else of that name is there',
};

export function diskRefusal(what: string, cause: unknown): HostRefusal {
  if (cause instanceof HostRefusal) return cause;
  return new HostRefusal({ code: 'disk', message: `${what}: ${wordsOfDisk(cause)}` });
}

/** What the system refuses is said in plain words. */
export async function onDisk<T>(what: string, work: () => Promise<T>): Promise<T> {
  try {
    return await work();
  } catch (cause) {
    // The system's errors carry its word; any other is a fault of the program, and is not put down to the disk.
    throw typeof (cause as NodeJS.ErrnoException).code === 'string' ? diskRefusal(what, cause) : cause;
  }
}

/** With the system's own word, by which it is looked up. */
export function wordsOfDisk(cause: unknown): string {
  const code = codeOf(cause);
  const said = words[code];
  return said === undefined ? code : `${said} (${code})`;
}
