/** An argument as a command sees it: a text, or, out of a batch line, an object that stands for a file's content. */
export type CommandArgument = string | Record<string, unknown>;

/** A line's bytes; of a line longer than is read, only their number. */
export type Line = Uint8Array | { bytesPassedOver: number };

/** How commands reach what lies outside them. */
export interface CommandIo {
  /** The text of a file, or of standard input for "-"; refused where it is absent, too large or no UTF-8. */
  readText(path: string): Promise<string>;
  /** The bytes of a file or of standard input, for what need not be UTF-8; refused where it is absent or too large. */
  readBytes(path: string): Promise<Uint8Array>;
  /** Each line of a file, or of standard input for "-", the last one with or without its line break. */
  readLines(path: string): AsyncIterable<Line>;
  /** True where the command is one line of a batch. */
  inBatch: boolean;
  /** Any command by its name, for the lines of a batch. */
  run(name: string, args: readonly CommandArgument[], io: CommandIo): Promise<Answer | Streamed>;
}

export interface Answer {
  /** 0: done, everything conforms; 1: done, the result says what does not. */
  exit: 0 | 1;
  /** Written as one JSON document. */
  result: unknown;
  /** Written instead, where `--format` asks for CSV or text. */
  text?: string;
  /** The result's JSON in pieces, where it may be longer than a text can be; written in its place. */
  pieces?: () => Iterable<string | Uint8Array>;
}

/** Answers written as they come, one line each. */
export interface Streamed {
  lines: AsyncIterable<{ exit: 0 | 1 | 2; line: string }>;
}

export type Command = (
  args: readonly CommandArgument[],
  io: CommandIo,
) => Answer | Streamed | Promise<Answer | Streamed>;

export interface CommandEntry {
  /** What follows the command's name. */
  usage: string;
  summary: string;
  /** Loaded when it is asked for: `convert` need not wait for a solver. */
  load: () => Promise<Command>;
}
