import type { TaskStep } from '../../../shared-types/records/task.ts';
import { signalWords } from '../../../shared-types/plan.ts';
import { codeOfText, codeText, countedOfText, countedText, entriesOf, partsOf } from './listText.ts';

/** How a field that has parts of its own is one cell, and a cell such a field. */
export interface CellForm {
  write: (value: unknown) => string;
  /** The field's value, or why the text is none. */
  read: (text: string) => { value: unknown } | { why: string };
}

type Of<K extends keyof TaskStep> = NonNullable<TaskStep[K]>;

/** A list, entry by entry; the first that is none is named. */
function listForm<T>(write: (one: T) => string, read: (text: string) => T | null, example: string): CellForm {
  return {
    write: (value) => (value as readonly T[]).map(write).join('; '),
    read(text) {
      const found: T[] = [];
      for (const entry of entriesOf(text)) {
        const one = read(entry);
        if (one === null) return { why: `"${entry}" cannot be read: write it as ${example}` };
        found.push(one);
      }
      return { value: found };
    },
  };
}

/** Sentences, one a line: any other sign may stand in them. */
const lines = (text: string): string[] =>
  text
    .split(/\r?\n/)
    .map((line) => line.trim())
    .filter((line) => line !== '');

/** "bag > rock", as the way of a move. */
function wayOf(text: string | undefined): { from: string; to: string } | null {
  const [first = '', second = '', ...rest] = partsOf(text ?? '', '>');
  const from = codeOfText(first);
  const to = codeOfText(second);
  return from === null || from === '' || to === null || rest.length > 0 ? null : { from, to };
}

const gear = listForm<Of<'gear'>[number]>(countedText, countedOfText, 'C-1 × 2');

const moves = listForm<Of<'moves'>[number]>(
  ({ id, quantity, from, to }) => `${countedText({ id, quantity })}: ${codeText(from)} > ${codeText(to)}`,
  (text) => {
    const [what = '', where, ...rest] = partsOf(text, ':');
    const counted = countedOfText(what);
    const way = wayOf(where);
    return counted === null || way === null || way.to === '' || rest.length > 0 ? null : { ...counted, ...way };
  },
  'C-1 × 2: bag > rock',
);

const fastenerMoves = listForm<Of<'fastenerMoves'>[number]>(
  ({ id, quantity, washers, from, to }) =>
    `${countedText({ id, quantity })}${washers === undefined ? '' : ` + ${washers} washers`}: ${codeText(from)} >${to === undefined ? '' : ` ${codeText(to)}`}`,
  (text) => {
    const [what = '', where, ...rest] = partsOf(text, ':');
    const [counted = '', beside, ...more] = partsOf(what, '+');
    const item = countedOfText(counted);
    const washers = beside === undefined ? undefined : /^\s*(\d{1,9})\s*(?:washers?)?\s*$/.exec(beside)?.[1];
    const way = wayOf(where);
    if (item === null || way === null || rest.length > 0 || more.length > 0) return null;
    if (beside !== undefined && washers === undefined) return null;
    return {
      ...item,
      ...(washers === undefined ? {} : { washers: Number(washers) }),
      from: way.from,
      ...(way.to === '' ? {} : { to: way.to }),
    };
  },
  'F1 × 12 + 12 washers: site > bag',
);

/** Stretches of a hole from its mouth inwards: how far, and how wide. */
const profile = listForm<{ to: string; clearDiameter: string }>(
  ({ to, clearDiameter }) => `${to}: ${clearDiameter}`,
  (text) => {
    const [to = '', wide = '', ...rest] = text.split(':').map((part) => part.trim());
    return to === '' || wide === '' || rest.length > 0 ? null : { to, clearDiameter: wide };
  },
  '20 mm: 30 mm',
);

const codes = listForm<string>(
  codeText,
  (text) => {
    const code = codeOfText(text);
    return code === '' ? null : code;
  },
  'S-1',
);

const spread: CellForm = {
  write: (value) => {
    const { least, likely, most } = value as Of<'spread'>;
    return [least, likely, most].join('; ');
  },
  read(text) {
    const parts = entriesOf(text);
    const [least, likely, most] = parts.map(Number);
    const isNumbers = parts.every((part) => /^\d+(?:\.\d+)?$/.test(part));
    return parts.length === 3 && isNumbers
      ? { value: { least, likely, most } }
      : { why: `"${text}" cannot be read: write least, likely and most minutes as 3; 5; 9` };
  },
};

const watchOuts: CellForm = {
  write: (value) => (value as Of<'watchOuts'>).join('\n'),
  read: (text) => ({ value: lines(text) }),
};

const cautions: CellForm = {
  write: (value) => (value as Of<'cautions'>).map(({ word, text }) => `${word}: ${text}`).join('\n'),
  read(text) {
    const found: Of<'cautions'> = [];
    for (const line of lines(text)) {
      const [, said = '', rest = ''] = /^(\w+)\s*:\s*(.*)$/.exec(line) ?? [];
      const word = signalWords.find((one) => one === said.toUpperCase());
      if (word === undefined || rest === '')
        return { why: `"${line}" cannot be read: begin it with ${signalWords.join(', ')} and a colon` };
      found.push({ word, text: rest });
    }
    return { value: found };
  },
};

/** Fields of a step that have parts of their own. */
export const cellForms = {
  ...{ gear, moves, fastenerMoves, spread, watchOuts, cautions, profile },
  after: codes,
  passes: listForm<string>(
    (text) => text,
    (text) => text,
    '50 %',
  ),
} as const satisfies Record<string, CellForm>;
