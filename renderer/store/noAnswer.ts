/** A call that has not settled in its time. It may still do so; nobody waits for it any more. */
export class NoAnswerError extends Error {
  override readonly name = 'NoAnswerError';
  readonly call: string;
  readonly afterS: number;

  constructor(call: string, afterMs: number) {
    super(`no answer from ${call} for ${Math.round(afterMs / 100) / 10} s`);
    this.call = call;
    this.afterS = Math.round(afterMs / 100) / 10;
  }
}

export function within<T>(promise: PromiseLike<T>, limitMs: number, call: string): Promise<T> {
  return new Promise((resolve, reject) => {
    const alarm = setTimeout(() => reject(new NoAnswerError(call, limitMs)), limitMs);
    promise.then(
      (value) => {
        clearTimeout(alarm);
        resolve(value);
      },
      (error: unknown) => {
        clearTimeout(alarm);
        reject(error);
      },
    );
  });
}

/** One limit for several calls: what is left of it, and never less than a share, so that a late call may still be quick. */
export function budget(totalMs: number, leastShare = 0): () => number {
  const end = performance.now() + totalMs;
  return () => Math.max(end - performance.now(), totalMs * leastShare, 1);
}
