import type { CalloutList } from '../../../shared-types/records/judgedLists.ts';
import { useTable } from '../session/useStore.ts';
import { countOf } from '../steps/words.ts';
import { RemoveQuestion, RemoveRefused } from '../task/RemoveQuestion.tsx';

export interface RemoveCalloutListProps {
  list: CalloutList;
  /** How many callouts it has. */
  count: number;
  onRemove: () => void;
  onStay: () => void;
}

/** Asked before a list goes. While records are judged against it, it stays: what they were found to be would change unseen. */
export function RemoveCalloutList({ list, count, onRemove, onStay }: RemoveCalloutListProps) {
  const asRunLists = useTable('asRunLists');
  const judgedBy = [...asRunLists.rows.values()].filter(({ callouts }) => callouts === list.id);
  if (judgedBy.length > 0)
    return (
      <RemoveRefused what={`List “${list.name}”`} onStay={onStay}>
        <p>As-run records are judged against it, in {countOf(judgedBy.length, 'list')}:</p>
        <ul>
          {judgedBy.map(({ id, name }) => (
            <li key={id}>“{name}”</li>
          ))}
        </ul>
        <p>In As-run, judge them against another list, or remove them, first.</p>
      </RemoveRefused>
    );
  return (
    <RemoveQuestion
      what={`list “${list.name}”`}
      {...(asRunLists.ready && asRunLists.fault === null ? { onRemove } : {})}
      onStay={onStay}
    >
      <p>
        {countOf(count, 'callout')} and what was accepted of them go with it. Steps that took a torque from it keep the
        torque.
      </p>
    </RemoveQuestion>
  );
}
