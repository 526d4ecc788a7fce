/** What closed the working copy may not be over at once. */
const settleMs = 1_000;
/** What happens again so soon would happen again and again. */
const atMostEveryMs = 60_000;

/** Does what it is given a moment later; not at all where it did so lately. */
export function seldom(): (work: () => void) => void {
  let last = Number.NEGATIVE_INFINITY;
  return (work) => {
    const now = performance.now();
    if (now - last < atMostEveryMs) return;
    last = now;
    setTimeout(work, settleMs);
  };
}
