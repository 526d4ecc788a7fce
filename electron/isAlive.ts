/** Whether a process of this machine is there; one that belongs to somebody else counts. */
export function isAlive(processId: number): boolean {
  try {
    process.kill(processId, 0);
    return true;
  } catch (cause) {
    return (cause as NodeJS.ErrnoException).code === 'EPERM';
  }
}
