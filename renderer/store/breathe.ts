/** Lets the page answer the hand before long work goes on. */
export function breathe(): Promise<void> {
  return new Promise((resolve) => {
    const { port1, port2 } = new MessageChannel();
    port1.addEventListener('message', () => {
      port1.close();
      resolve();
    });
    port1.start();
    port2.postMessage(null);
  });
}

/** So long the page works on before it looks whether the hand wants something. */
const turnMs = 16;

/** For work of many small steps: a breath where one is due, else null, which costs nothing to ask for. */
export function breaths(): () => Promise<void> | null {
  let until = performance.now() + turnMs;
  return () => {
    if (performance.now() < until) return null;
    return breathe().then(() => {
      until = performance.now() + turnMs;
    });
  };
}
