import type { ReactNode, Ref } from 'react';
import { Button, NativeSelect } from '@mantine/core';
import type { LineView, TableJudged } from '../../../shared-types/inspection.ts';
import { SearchBox } from '../../components/SearchBox/SearchBox.tsx';
import { UndoRedo } from '../../components/UndoRedo/UndoRedo.tsx';
import type { UndoRedoProps } from '../../components/UndoRedo/UndoRedo.tsx';
import { firstView } from './lineView.ts';
import { lineStateWords } from './stateWords.tsx';

export interface JudgedBarProps extends UndoRedoProps {
  view: LineView;
  onLook: (change: Partial<LineView>) => void;
  searchRef: Ref<HTMLInputElement>;
  searchLabel: string;
  searchHint: string;
  /** "18 of 214". */
  count: string;
  judged: TableJudged | null;
  /** Which table, and what is done with the whole of it. */
  children: ReactNode;
  /** Down from the search: into the rows. */
  onDown: () => void;
}

const states = [
  { value: 'all', label: 'Every decision' },
  ...(['nonconforming', 'indeterminate', 'conforming', 'unreadable'] as const).map((value) => ({
    value,
    label: lineStateWords[value],
  })),
];
const severities = [
  { value: 'all', label: 'Every severity' },
  { value: 'reject', label: 'Nonconforming findings' },
  { value: 'query', label: 'Indeterminate findings' },
  { value: 'note', label: 'Notes' },
];
const acceptances = [
  { value: 'all', label: 'Open and accepted' },
  { value: 'open', label: 'Something open' },
  { value: 'accepted', label: 'Something accepted' },
];

/** What is shown of the rows, and what can be done to all of them. */
export function JudgedBar(props: JudgedBarProps) {
  const { view, onLook, searchRef, searchLabel, searchHint, count, judged, children, onDown, ...turns } = props;
  const rules = Object.entries(judged?.rules ?? {}).toSorted((a, b) => (a[0] < b[0] ? -1 : 1));
  const sieved = view.state !== 'all' || view.rule !== null || view.severity !== 'all' || view.acceptance !== 'all';
  return (
    <div className="bw-callouts-bar">
      <div className="bw-callouts-line">
        {children}
        <span className="bw-callouts-end">
          <UndoRedo {...turns} />
        </span>
      </div>
      <div className="bw-callouts-line">
        <SearchBox
          inputRef={searchRef}
          label={searchLabel}
          hint={searchHint}
          value={view.text}
          onValue={(text) => onLook({ text })}
          count={count}
          onDown={onDown}
        />
        <NativeSelect
          aria-label="Decision"
          data={states}
          value={view.state}
          onChange={({ currentTarget }) => onLook({ state: currentTarget.value as LineView['state'] })}
        />
        <NativeSelect
          aria-label="Rule"
          className="bw-callouts-rule"
          data={[
            { value: '', label: 'Every rule' },
            ...rules.map(([rule, times]) => ({ value: rule, label: `${rule} (${times})` })),
          ]}
          value={view.rule ?? ''}
          onChange={({ currentTarget }) => onLook({ rule: currentTarget.value === '' ? null : currentTarget.value })}
        />
        <NativeSelect
          aria-label="Severity"
          data={severities}
          value={view.severity}
          onChange={({ currentTarget }) => onLook({ severity: currentTarget.value as LineView['severity'] })}
        />
        <NativeSelect
          aria-label="Acceptance"
          data={acceptances}
          value={view.acceptance}
          onChange={({ currentTarget }) => onLook({ acceptance: currentTarget.value as LineView['acceptance'] })}
        />
        {sieved || view.text !== '' ? (
          <Button onClick={() => onLook({ ...firstView, sort: view.sort, down: view.down })}>Show all</Button>
        ) : null}
      </div>
    </div>
  );
}
