/** What this window is called while it is open: a name that outlives a reload of it, and that no other open one has. */
const place = 'bagwright-window';

const lockOf = (window: string): string => `bagwright-window ${window}`;

/** A page that is loaded again may have to wait for the one it follows to be gone. */
const goneWithinMs = 500;

let held: string | null = null;

export function thisWindow(): string {
  return sessionStorage.getItem(place) ?? takeNewName();
}

function takeNewName(): string {
  const name = crypto.randomUUID();
  sessionStorage.setItem(place, name);
  return name;
}

/** A window made as a copy of another begins with that one's name too: then it takes one of its own. */
export async function claimWindow(): Promise<void> {
  const locks: LockManager | undefined = navigator.locks;
  try {
    const name = thisWindow();
    if (name === held) return;
    // Where nothing tells a copy from a page that was loaded again, each is a window of its own.
    if (locks === undefined) held = takeNewName();
    else if (!(await isHeldHere(locks, name, { signal: AbortSignal.timeout(goneWithinMs) }))) {
      void isHeldHere(locks, takeNewName(), {});
    }
  } catch {
    // Without the browser's storage there are no drafts to tell apart.
  }
}

/** True once this page holds it, which it does until it is gone. */
function isHeldHere(locks: LockManager, name: string, options: LockOptions): Promise<boolean> {
  return new Promise((resolve) => {
    const hold = (): Promise<never> => {
      held = name;
      resolve(true);
      return new Promise(() => undefined);
    };
    locks.request(lockOf(name), options, hold).catch(() => resolve(false));
  });
}

/** Whether a window is open; null where nothing tells. */
export async function openWindows(): Promise<((window: string) => boolean) | null> {
  const locks: LockManager | undefined = navigator.locks;
  if (locks === undefined) return null;
  const { held: all = [] } = await locks.query();
  const names = new Set(all.map(({ name }) => name));
  return (window) => names.has(lockOf(window));
}
