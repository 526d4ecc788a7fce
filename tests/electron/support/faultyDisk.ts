/** The real disk, with faults a test asks for at the n-th call of a kind, and a list of what was called in order. */
import { basename } from 'node:path';
import { realDisk, type Disk, type DiskFile } from '../../../electron/files/disk.ts';

export type DiskCall =
  | 'open'
  | 'write'
  | 'truncate'
  | 'chmod'
  | 'stat'
  | 'sync'
  | 'datasync'
  | 'close'
  | 'readFile'
  | 'readdir'
  | 'mkdir'
  | 'rename'
  | 'rm';

/** How the calls of a kind fail: from the `nth` on (1 is the next), so many times. */
export interface Fault {
  call: DiskCall;
  code: string;
  nth: number;
  times: number;
  /** For writes: so many bytes are taken first, as a disk does that is about to be full. */
  partBytes?: number;
  /** Only for files whose name has this in it. */
  named?: RegExp;
}

export interface FaultyDisk extends Disk {
  log: string[];
  fail(fault: Fault): void;
  heal(): void;
}

/** Without real syncs a long campaign is not slowed by them: what is tested there is what happens around them. */
export function faultyDisk({ realSyncs = true } = {}): FaultyDisk {
  const log: string[] = [];
  let faults: (Fault & { seen: number })[] = [];

  const strike = (call: DiskCall, path: string): Fault | null => {
    log.push(`${call} ${basename(path)}`);
    for (const fault of faults) {
      if (fault.call !== call || fault.named?.test(path) === false) continue;
      fault.seen += 1;
      if (fault.seen >= fault.nth && fault.seen < fault.nth + fault.times) return fault;
    }
    return null;
  };
  const meet = (call: DiskCall, path: string): void => {
    const fault = strike(call, path);
    if (fault !== null) throw failure(fault);
  };

  const file = (handle: DiskFile, path: string): DiskFile => {
    let owed: Fault | null = null;
    return {
      async write(bytes) {
        const struck = strike('write', path);
        const fault = owed ?? struck;
        owed = null;
        if (fault === null) return await handle.write(bytes);
        if (fault.partBytes === undefined || fault.partBytes === 0) throw failure(fault);
        // A part is taken; what is offered next meets the full disk.
        owed = { ...fault, partBytes: 0 };
        return await handle.write(bytes.subarray(0, Math.min(fault.partBytes, bytes.length)));
      },
      async truncate(length) {
        meet('truncate', path);
        await handle.truncate(length);
      },
      async chmod(mode) {
        meet('chmod', path);
        await handle.chmod(mode);
      },
      async stat() {
        meet('stat', path);
        return await handle.stat();
      },
      async sync() {
        meet('sync', path);
        if (realSyncs) await handle.sync();
      },
      async datasync() {
        meet('datasync', path);
        if (realSyncs) await handle.datasync();
      },
      async close() {
        await handle.close();
        meet('close', path);
      },
    };
  };

  return {
    log,
    fail: (fault) => void faults.push({ ...fault, seen: 0 }),
    heal: () => {
      faults = [];
    },
    async open(path, flags, mode) {
      meet('open', path);
      return file(await realDisk.open(path, flags, mode), path);
    },
    async readFile(path) {
      meet('readFile', path);
      return await realDisk.readFile(path);
    },
    async readdir(path) {
      meet('readdir', path);
      return await realDisk.readdir(path);
    },
    async mkdir(path, options) {
      meet('mkdir', path);
      await realDisk.mkdir(path, options);
    },
    async chmod(path, mode) {
      meet('chmod', path);
      await realDisk.chmod(path, mode);
    },
    async rename(from, to) {
      meet('rename', to);
      await realDisk.rename(from, to);
    },
    async rm(path, options) {
      meet('rm', path);
      await realDisk.rm(path, options);
    },
  };
}

function failure({ call, code }: Fault): Error {
  return Object.assign(new Error(`${code}: ${call} failed, as the test asked`), { code });
}
