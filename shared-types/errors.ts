/** Why an input was refused, in the words of the headless contract. Every boundary speaks this one shape. */
export type RefusalCode =
  | 'usage' // the command line itself
  | 'unreadable-file' // absent, a folder, not permitted, not text
  | 'too-large' // more bytes than the boundary takes
  | 'not-json' // broken off or malformed
  | 'too-deep' // nested past the limit
  | 'forbidden-key' // __proto__ and its kin
  | 'duplicate-key' // one object names a field twice
  | 'wrong-shape' // a field of another type than asked
  | 'missing-field'
  | 'unreadable-quantity'
  | 'ambiguous-quantity' // "1,200 lbf·in", a bare number
  | 'unknown-unit'
  | 'wrong-kind' // a unit of another kind than the field takes
  | 'not-finite'
  | 'out-of-range'
  | 'unreadable-thread'
  | 'contradiction' // two parts of one input that cannot both hold
  | 'unknown-id'
  | 'duplicate-id'
  | 'not-held' // no published value
  | 'not-available' // asked of this program, which does not do it
  | 'behind' // others wrote meanwhile
  | 'not-writer' // another window has the right to write
  | 'disk' // the disk did not take it
  | 'conflict' // the record was changed meanwhile
  | 'internal';

export interface Refusal {
  code: RefusalCode;
  message: string;
  file?: string;
  /** Line of the file, the first being 1. */
  row?: number;
  /** Path of the field, as `catalog.sockets[2].length`. */
  field?: string;
  value?: unknown;
  /** Character of the text at which reading stopped, from 0. */
  position?: number;
  /** Every refused row, where more than one was found. */
  rows?: Refusal[];
}
