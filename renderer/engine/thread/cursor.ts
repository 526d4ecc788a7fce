import type { RefusalCode } from '../../../shared-types/errors.ts';
import { RefusedError } from '../errors.ts';

/** A text read from left to right, which knows where it stands when it has to refuse. */
export class Cursor {
  readonly text: string;
  index = 0;

  constructor(text: string) {
    this.text = text;
  }

  /** The named groups of a form at the place reached, which then lies behind; undefined where the form is not there. */
  take(form: RegExp): Record<string, string | undefined> | undefined {
    const sticky = new RegExp(form.source, form.flags.includes('i') ? 'iyu' : 'yu');
    sticky.lastIndex = this.index;
    const found = sticky.exec(this.text);
    if (found === null) return undefined;
    this.index += found[0].length;
    return found.groups ?? {};
  }

  get rest(): string {
    return this.text.slice(this.index);
  }

  refuse(why: string, code: RefusalCode = 'unreadable-thread', position = this.index): RefusedError {
    return new RefusedError({ code, message: `Thread "${this.text}" ${why}`, value: this.text, position });
  }
}
