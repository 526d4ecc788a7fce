import { once } from 'node:events';

/** A stream that may be closed by whoever reads it: what is left to say is then dropped without complaint. */
export class Output {
  private readonly stream: NodeJS.WriteStream;
  private failure: Error | null = null;

  constructor(stream: NodeJS.WriteStream) {
    this.stream = stream;
    stream.on('error', (error: NodeJS.ErrnoException) => {
      this.failure ??= error;
    });
  }

  /** False once nobody reads any more. */
  async write(text: string | Uint8Array): Promise<boolean> {
    if (this.closed) return false;
    if (!this.stream.write(text) && !this.closed) {
      await Promise.race([once(this.stream, 'drain'), once(this.stream, 'close')]).catch(() => undefined);
    }
    return !this.closed;
  }

  /** Waits until all is handed over. */
  async flush(): Promise<void> {
    if (this.closed) return;
    await new Promise<void>((resolve) => {
      this.stream.write('', () => {
        resolve();
      });
    });
  }

  /** Why writing failed, where it is not that the reader left. */
  get fault(): Error | null {
    return this.failure !== null && 'code' in this.failure && this.failure.code === 'EPIPE' ? null : this.failure;
  }

  private get closed(): boolean {
    return this.failure !== null || this.stream.destroyed || this.stream.writableEnded;
  }
}
