import type { LearnedIn, WatchOut } from '../../../shared-types/records/watchOut.ts';
import type { GridColumn, GridRow } from '../../components/RowGrid/RowGrid.tsx';
import { StateMark } from '../../components/StateMark/StateMark.tsx';
import { tieNow } from './ties.ts';
import type { Touchable } from './ties.ts';

export const learnedWords: Readonly<Record<LearnedIn, string>> = {
  'as-run': 'As-run record',
  finding: 'Finding',
  return: 'Return',
  task: 'At work on a task',
  said: 'Said by a person',
};

export interface WatchOutView {
  search: string;
  /** What it is tied to. */
  to: 'all' | 'interface' | 'item' | 'step';
  from: 'all' | LearnedIn;
  state: 'said' | 'retired' | 'all';
}

export const plainView: WatchOutView = { search: '', to: 'all', from: 'all', state: 'said' };

export const watchOutColumns: GridColumn[] = [
  { key: 'text', label: 'Watch-out', width: 'minmax(0, 1fr)' },
  { key: 'ties', label: 'Touches', width: 'minmax(0, 0.7fr)' },
  { key: 'on', label: 'Learned', width: '92px', wideOnly: true },
];

/** Those that are as asked for, the newest first; of a search, what holds all its words. */
export function shownWatchOuts(records: Iterable<WatchOut>, view: WatchOutView, known: Touchable): WatchOut[] {
  const words = view.search.toLowerCase().split(/\s+/).filter(Boolean);
  return [...records]
    .filter((record) => {
      if (view.state !== 'all' && (record.retired !== undefined) !== (view.state === 'retired')) return false;
      if (view.to !== 'all' && !record.ties.some(({ to }) => to === view.to)) return false;
      if (view.from !== 'all' && record.learned.in !== view.from) return false;
      if (words.length === 0) return true;
      const { learned } = record;
      const tied = record.ties
        .map((tie) => tieNow(tie, known))
        .map(({ words: said, about }) => `${said} ${about ?? ''}`);
      const text = [record.text, ...tied, learned.words, learned.person, learned.on, learnedWords[learned.in]];
      const whole = text.join(' ').toLowerCase();
      return words.every((word) => whole.includes(word));
    })
    .toSorted((a, b) => b.learned.on.localeCompare(a.learned.on) || a.text.localeCompare(b.text));
}

export function watchOutGridRows(shown: readonly WatchOut[], known: Touchable): GridRow[] {
  return shown.map((record) => ({
    kind: 'row',
    id: record.id,
    cells: () => ({
      text: (
        <span className="bw-watchout-words" dir="auto">
          {record.retired === undefined ? null : (
            <>
              <StateMark state="retired" />{' '}
            </>
          )}
          {record.text}
        </span>
      ),
      ties: (
        <span className="bw-watchout-words" dir="auto">
          {record.ties
            .map((tie) => tieNow(tie, known))
            .map(({ words, gone }) => (gone ? `${words} (not kept any more)` : words))
            .join('; ')}
        </span>
      ),
      on: record.learned.on,
    }),
  }));
}
