import type { Comparison, EntryChange, FieldChange, LineChange } from '../../engine/frozen/index.ts';
import { fieldWords } from '../import/importWords.ts';
import { countOf } from '../steps/words.ts';

/** What a comparison says of one thing, as a row of a table. */
export interface ComparisonRow {
  /** "Lines", of several outings with which one; "Things", "Steps" … */
  part: string;
  /** What it is about, with its code where it has one. */
  what: string;
  code: string;
  /** "added", "other quantity", "stack". */
  how: string;
  was: string;
  is: string;
}

/** What names are called by in both of the two, the later first. */
export interface Names {
  item: (code: string) => string;
  bag: (code: string) => string;
  outing: (code: string) => string;
  /** Whether there is more than one outing to tell apart. */
  outings: boolean;
}

const none = 'not there';

const lineWords: Record<LineChange['kind'], string> = {
  added: 'added',
  gone: 'gone',
  quantity: 'other quantity',
  moved: 'moved to another bag',
  reason: 'needed otherwise',
};

/** Every change as a row, lines first. */
export function comparisonRows(found: Comparison, names: Names): ComparisonRow[] {
  return [
    ...found.lines.map((line) => lineRow(line, names)),
    ...found.things.flatMap((one) => entryRows('Things', one, 'on the manifest')),
    ...found.steps.flatMap((one) => entryRows('Steps', one, 'in the task')),
    ...found.outings.flatMap((one) => entryRows('Outings', one, 'in the task')),
    ...found.whole.map((field): ComparisonRow => ({
      ...{ part: 'The task and what was asked of the bag', what: '', code: '' },
      ...fieldRow(field),
    })),
    ...found.stock.flatMap((one) => entryRows('Stock on neither manifest', one, 'on the shelf')),
  ];
}

function lineRow({ kind, outing, item, was, is, words, pieces }: LineChange, names: Names): ComparisonRow {
  const lying = (line: LineChange['was'], said: string | undefined): string =>
    line === null
      ? none
      : `${countOf(line.quantity, 'piece')} in ${names.bag(line.bag)}${said === undefined ? '' : `, ${said}`}`;
  const more = pieces > 0 ? `${pieces} more` : `${-pieces} fewer`;
  return {
    part: names.outings ? `Lines of ${names.outing(outing)}` : 'Lines',
    ...{ what: names.item(item), code: item },
    how: kind === 'quantity' ? `${lineWords.quantity}: ${more}` : lineWords[kind],
    was: lying(was, words?.was),
    is: lying(is, words?.is),
  };
}

function entryRows(part: string, { code, name, kind, fields }: EntryChange, there: string): ComparisonRow[] {
  const own = { part, code, what: name === code ? '' : name };
  if (kind === 'added') return [{ ...own, how: 'added', was: none, is: there }];
  if (kind === 'gone') return [{ ...own, how: 'gone', was: there, is: none }];
  return fields.map((field) => ({ ...own, ...fieldRow(field) }));
}

const fieldNames: Partial<Record<string, string>> = {
  number: 'place in the order',
  heldBy: 'held by',
  at: 'interface',
  where: 'interface',
  catalogEntry: 'entry of the catalog',
  carried: 'carried watch-outs',
};

function fieldRow({ path, was, is }: FieldChange): Pick<ComparisonRow, 'how' | 'was' | 'is'> {
  // A key says nothing to anybody but that it is another.
  if (path === 'catalogEntry')
    return { how: 'entry of the catalog', was: 'the one of then', is: 'another of the same code' };
  return {
    how: fieldNames[path] ?? fieldWords(path.replace(/^at\./, 'interface.')),
    was: was ?? 'not said',
    is: is ?? 'not said',
  };
}

/** "2 lines, 1 thing and 3 steps differ; 14 lines are the same." */
export function summaryText(found: Comparison): string {
  const parts = [
    [found.lines.length, 'line'],
    [found.things.length, 'thing'],
    [found.steps.length, 'step'],
    [found.outings.length, 'outing'],
    [found.whole.length, 'setting'],
    [found.stock.length, 'thing on neither manifest', 'things on neither manifest'],
  ] as const;
  const told = parts.flatMap(([count, one, many = `${one}s`]) => (count === 0 ? [] : [countOf(count, one, many)]));
  const last = told.pop();
  if (last === undefined) return 'Nothing differs.';
  const all = told.length === 0 ? last : `${told.join(', ')} and ${last}`;
  const same = found.bags ? ` ${countOf(found.same.lines, 'line is', 'lines are')} the same.` : '';
  return `${all} ${parts.reduce((sum, [count]) => sum + count, 0) === 1 ? 'differs' : 'differ'}.${same}`;
}

/** The columns of its CSV and of its printed table. */
export function comparisonColumns(heads: readonly [string, string]): string[] {
  return ['part', 'what', 'code', 'how', ...heads];
}
