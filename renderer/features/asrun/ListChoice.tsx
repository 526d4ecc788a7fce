import { NativeSelect } from '@mantine/core';
import type { AsRunList, CalloutList } from '../../../shared-types/records/judgedLists.ts';

export interface ListChoiceProps {
  lists: readonly AsRunList[];
  list: string;
  onList: (id: string) => void;
  calloutLists: readonly CalloutList[];
  /** Empty where the task has no callouts. */
  against: string;
  onAgainst: (list: CalloutList) => void;
}

/** Which records are shown, and which callouts they are judged against. */
export function ListChoice({ lists, list, onList, calloutLists, against, onAgainst }: ListChoiceProps) {
  return (
    <>
      <NativeSelect
        aria-label="List of records"
        className="bw-callouts-list"
        data={lists.map(({ id, name }) => ({ value: id, label: name }))}
        value={list}
        onChange={({ currentTarget: { value } }) => onList(value)}
      />
      <span className="bw-asrun-against">
        <span>against</span>
        <NativeSelect
          aria-label="Callouts they are judged against"
          data={
            calloutLists.length === 0
              ? [{ value: '', label: 'no callouts yet' }]
              : calloutLists.map(({ id, name }) => ({ value: id, label: name }))
          }
          value={against}
          onChange={({ currentTarget: { value } }) => {
            const next = calloutLists.find(({ id }) => id === value);
            if (next !== undefined) onAgainst(next);
          }}
        />
      </span>
    </>
  );
}
