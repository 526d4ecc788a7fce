const kinds = ['SIGINT', 'SIGTERM', 'SIGHUP'] as const;
let stopping: AbortSignal | null = null;

/** Aborts when the user or the system asks the program to end. Listening also keeps Node from ending at once. */
export function stopSignals(): AbortSignal {
  if (stopping !== null) return stopping;
  const controller = new AbortController();
  for (const kind of kinds) process.on(kind, () => controller.abort());
  stopping = controller.signal;
  return stopping;
}
