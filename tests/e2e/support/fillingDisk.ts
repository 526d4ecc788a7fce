/** A disk that is full whenever a test says so: it takes half of what it is given and refuses the rest, as a real one. */
import { realDisk, type Disk, type DiskFile } from '../../../electron/files/disk.ts';

export interface FillingDisk extends Disk {
  /** Which call finds it full; null: there is room. */
  fullAt: 'write' | 'datasync' | null;
  /** How often it said so. */
  refused: number;
}

export function fillingDisk(): FillingDisk {
  const disk: FillingDisk = {
    ...realDisk,
    fullAt: null,
    refused: 0,
    async open(path, flags, mode) {
      const file = await realDisk.open(path, flags, mode);
      return {
        async write(bytes) {
          if (disk.fullAt !== 'write') return await file.write(bytes);
          await file.write(bytes.subarray(0, bytes.length >> 1));
          disk.refused += 1;
          throw noSpace('write');
        },
        async datasync() {
          if (disk.fullAt !== 'datasync') return await file.datasync();
          disk.refused += 1;
          throw noSpace('fdatasync');
        },
        truncate: (length) => file.truncate(length),
        chmod: (bits) => file.chmod(bits),
        stat: () => file.stat(),
        sync: () => file.sync(),
        close: () => file.close(),
      } satisfies DiskFile;
    },
  };
  return disk;
}

function noSpace(call: string): NodeJS.ErrnoException {
  return Object.assign(new Error(`ENOSPC: no space left on device, ${call}`), { code: 'ENOSPC', syscall: call });
}
