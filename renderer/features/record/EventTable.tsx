import { useState } from 'react';
import { Button } from '@mantine/core';
import type { OutingEvent } from '../../../shared-types/records/revision.ts';
import { StateMark } from '../../components/StateMark/StateMark.tsx';
import { shortHash } from '../../engine/record/shortHash.ts';
import { spoken } from '../manifest/pageFurniture.ts';
import { clockWentBack, deedText, outingText } from './deedWords.ts';
import type { Called } from './deedWords.ts';

const shownMost = 200;

/** Events in their order, the newest first; of long records the newest at first, and all of them on demand. */
export function EventTable({ events, called }: { events: readonly OutingEvent[]; called: Called }) {
  const [all, setAll] = useState(false);
  const wentBack = clockWentBack(events);
  const takenBack = new Map(
    events.flatMap(({ no, deed }) => (deed.kind === 'taken-back' && deed.of < no ? [[deed.of, no] as const] : [])),
  );
  const newest = events.toReversed();
  const shown = all ? newest : newest.slice(0, shownMost);
  if (events.length === 0) return <p>Nothing was done with this manifest yet.</p>;
  return (
    <>
      <div className="bw-task-scroll" role="region" aria-label="Events" tabIndex={0}>
        <table className="bw-task-table bw-record-events">
          <thead>
            <tr>
              <th scope="col">No</th>
              <th scope="col">Clock</th>
              <th scope="col">Who, as what</th>
              <th scope="col">Outing</th>
              <th scope="col">What was done</th>
              <th scope="col">Hash</th>
            </tr>
          </thead>
          <tbody>
            {shown.map((event) => {
              const { no, at, by, outing, deed, hash } = event;
              const by2 = takenBack.get(no);
              return (
                <tr key={no}>
                  <th scope="row">{no}</th>
                  <td>
                    {spoken(at)}
                    {wentBack.has(no) ? (
                      <div>
                        <StateMark state="indeterminate" text="the clock went back" />
                      </div>
                    ) : null}
                  </td>
                  <td>
                    <bdi>{by.name}</bdi>, <bdi>{by.role}</bdi>
                  </td>
                  <td dir="auto">{outingText(called, outing)}</td>
                  <td dir="auto">
                    {by2 === undefined ? deedText(deed, called) : <s>{deedText(deed, called)}</s>}
                    {by2 === undefined ? null : <div className="bw-second">taken back by event {by2}</div>}
                  </td>
                  <td className="bw-code">{shortHash(hash)}</td>
                </tr>
              );
            })}
          </tbody>
        </table>
      </div>
      {newest.length > shown.length ? (
        <Button onClick={() => setAll(true)}>Show all {newest.length} events</Button>
      ) : null}
    </>
  );
}
