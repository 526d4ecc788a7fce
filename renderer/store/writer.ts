/** A window being loaded again may ask before its earlier self has let go: it asks again, so often and so far apart. */
const patience = { attempts: 5, apartMs: 200 };

/**
 * True where this window is the one that writes the store: the first one open. It holds a lock until it is closed, and
 * any other window on the same store gets false. Where the browser has no locks, every window writes.
 */
export async function becomeWriter(
  locks: LockManager | undefined = navigator.locks,
  { attempts, apartMs } = patience,
): Promise<boolean> {
  if (locks === undefined) return true;
  for (let attempt = 1; attempt <= attempts; attempt += 1) {
    if (await took(locks)) return true;
    if (attempt < attempts) await new Promise((resolve) => setTimeout(resolve, apartMs));
  }
  return false;
}

// The browser answers whether the lock is free: a slow machine can be late, and is not taken for another window.
function took(locks: LockManager): Promise<boolean> {
  return new Promise((resolve) => {
    locks
      .request('writer', { ifAvailable: true }, (lock) => {
        resolve(lock !== null);
        return lock === null ? undefined : new Promise<undefined>(() => undefined);
      })
      .catch(() => resolve(true));
  });
}
