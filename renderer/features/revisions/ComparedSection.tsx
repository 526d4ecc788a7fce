import { useState } from 'react';
import { Button, NativeSelect } from '@mantine/core';
import type { Host } from '../../../shared-types/host.ts';
import type { Revision } from '../../../shared-types/records/revision.ts';
import type { Task } from '../../../shared-types/records/task.ts';
import type { ToFreeze } from '../../engine/frozen/index.ts';
import { placeAddress } from '../../store/place.ts';
import { tableFile } from '../report/tableFile.ts';
import { goTo } from '../session/usePlace.ts';
import { comparisonColumns, comparisonRows, summaryText } from './comparisonRows.ts';
import { ComparisonTable } from './ComparisonTable.tsx';
import { calledText, openNumber, whenText } from './revisionWords.ts';
import { useCompared } from './useCompared.ts';

export interface ComparedSectionProps {
  revisions: readonly Revision[];
  open: ToFreeze;
  /** Null: the task as it stands. Of the two it and `other`, at most one. */
  inHand: Revision | null;
  other: Revision | null;
  task: Pick<Task, 'code'>;
  host: Host;
}

const numberOf = (one: Revision | null): string => (one === null ? openNumber : String(one.number));

/** The one in hand against another, the earlier first: what came, went, moved and reads otherwise. */
export function ComparedSection({ revisions, open, inHand, other, task, host }: ComparedSectionProps) {
  const [said, setSaid] = useState<string | null>(null);
  // What is not frozen yet is later than whatever is.
  const isEarlier = other !== null && (inHand === null || other.number < inHand.number);
  const [one, two] = isEarlier ? [other, inHand] : [inHand, other];
  const compared = useCompared(one ?? open, two ?? open);
  const heads = [calledText(one), calledText(two)] as const;
  const choices = [null, ...revisions.toReversed()].filter((each) => each !== inHand);
  const save = async (): Promise<void> => {
    if (compared?.kind !== 'compared') return;
    const rows = comparisonRows(compared.found, compared.names).map(({ part, what, code, how, was, is }) => [
      ...[part, what, code, how, was, is],
    ]);
    const name = `compared_${task.code}_${numberOf(one)}_${numberOf(two)}`;
    const file = tableFile({ name, form: 'csv', columns: comparisonColumns(heads), rows });
    setSaid((await host.saveFile(file)) ? `Saved as ${file.name}.` : 'Not saved.');
  };
  return (
    <section aria-labelledby="compared-heading" className="bw-rev-section">
      <h3 id="compared-heading">
        {heads[0]} and {heads[1].replace(/^./, (letter) => letter.toLowerCase())}
      </h3>
      <div className="bw-rev-choice">
        <NativeSelect
          label="Held against"
          data={choices.map((each) => ({ value: numberOf(each), label: choiceText(each) }))}
          value={numberOf(other)}
          onChange={({ currentTarget: { value } }) =>
            goTo({ at: 'revisions', number: numberOf(inHand), other: value }, 'replace')
          }
        />
        <Button
          onClick={() =>
            void save().catch((error: unknown) => setSaid(error instanceof Error ? error.message : String(error)))
          }
          disabled={compared?.kind !== 'compared'}
        >
          Save comparison as CSV…
        </Button>
        <a
          className="bw-rev-print"
          href={placeAddress({ at: 'frozen', number: numberOf(one ?? two), sheet: 'compared', of: numberOf(two) })}
        >
          Comparison as it is printed
        </a>
      </div>
      <p role="status">{said}</p>
      {compared === null ? null : compared.kind === 'refused' ? (
        <p role="alert">
          <b>They cannot be compared.</b> {compared.reason}
        </p>
      ) : (
        <>
          <p>
            <b>{summaryText(compared.found)}</b>
            {compared.found.bags
              ? ''
              : ' The task has no bag of its present state: lines, things and stacks are compared once it is planned.'}
          </p>
          <ComparisonTable found={compared.found} names={compared.names} heads={heads} />
        </>
      )}
    </section>
  );
}

function choiceText(one: Revision | null): string {
  return one === null
    ? 'The task as it stands'
    : `Revision ${one.number}, ${whenText(one.at)}, ${one.by.name}: ${one.why}`;
}
