import { onTestFinished } from 'vitest';

/** Where a window keeps its name. */
export const place = 'bagwright-window';
export const newWindow = (): string => goTo(crypto.randomUUID());

/** This window goes by that name from now on. */
export function goTo(window: string): string {
  sessionStorage.setItem(place, window);
  return window;
}

/** Another window that is open until the test ends, or it is closed. */
export async function openWindow(name: string): Promise<() => Promise<void>> {
  let close: (() => void) | undefined;
  const closed = new Promise<void>((resolve) => (close = resolve));
  let ended: Promise<void> | undefined;
  await new Promise<void>((isOpen) => {
    ended = navigator.locks.request(`bagwright-window ${name}`, async () => {
      isOpen();
      await closed;
    });
  });
  const end = async (): Promise<void> => {
    close?.();
    await ended;
  };
  onTestFinished(end);
  return end;
}
