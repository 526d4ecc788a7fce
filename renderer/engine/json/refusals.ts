import type { Refusal } from '../../../shared-types/errors.ts';
import { RefusedError } from '../errors.ts';

/** Gathers what is wrong in one file, so that a person can mend it in one go. */
export class Refusals {
  private readonly found: Refusal[] = [];
  private readonly file: string | undefined;
  private readonly rowOf: (field: string) => number | undefined;

  constructor(file: string | undefined, rowOf: (field: string) => number | undefined) {
    this.file = file;
    this.rowOf = rowOf;
  }

  add(field: string, refusal: Pick<Refusal, 'code' | 'message'> & Partial<Refusal>): void {
    const row = this.rowOf(field);
    this.found.push({
      ...refusal,
      message: `${field}: ${refusal.message}`,
      ...(this.file === undefined ? {} : { file: this.file }),
      ...(row === undefined ? {} : { row }),
      field,
    });
  }

  /** What `read` gives; where it refuses, the refusal is kept under `field` and `instead` stands in. */
  attempt<T>(field: string, value: unknown, instead: T, read: () => T): T {
    try {
      return read();
    } catch (error) {
      if (!(error instanceof RefusedError)) throw error;
      this.add(field, { value, ...error.refusal });
      return instead;
    }
  }

  /** Throws if anything was refused: the first in front, all of them in `rows`. */
  settle(): void {
    const [first] = this.found;
    if (!first) return;
    throw new RefusedError(this.found.length === 1 ? first : { ...first, rows: this.found });
  }
}
