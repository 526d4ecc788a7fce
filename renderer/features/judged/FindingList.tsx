import { Button } from '@mantine/core';
import type { AcceptedFinding } from '../../../shared-types/records/judgedLists.ts';
import type { Finding } from '../../../shared-types/judged.ts';
import { SourceNote } from '../../components/SourceNote/SourceNote.tsx';
import { StateMark } from '../../components/StateMark/StateMark.tsx';
import { acceptanceOf } from '../../engine/inspection/index.ts';
import type { Unit, UnitsShown } from '../../engine/units/index.ts';
import { dayAndClockText } from '../../store/clock.ts';
import { findingNumbers, findingText, markOf } from './findingWords.ts';
import { SourceOf } from './SourceOf.tsx';

export interface FindingListProps {
  findings: readonly Finding[];
  accepted: readonly AcceptedFinding[];
  /** The callout's own unit of torque. */
  unit: Unit;
  units: UnitsShown;
  /** Without them nothing can be decided here: the rows are not kept. */
  onAccept?: ((finding: Finding) => void) | undefined;
  onWithdraw?: ((accepted: AcceptedFinding) => void) | undefined;
}

const words = { reject: 'Nonconforming', query: 'Indeterminate', note: 'Note' } as const;
const rank = { reject: 0, query: 1, note: 2 } as const;

/** What the rules found: word and shape, rule, numbers, source; and what a person decided about it. */
export function FindingList({ findings, accepted, unit, units, onAccept, onWithdraw }: FindingListProps) {
  const sorted = findings.toSorted((a, b) => rank[a.severity] - rank[b.severity]);
  return (
    <ol className="bw-findings">
      {sorted.map((finding) => {
        const taken = acceptanceOf(finding, accepted);
        const { severity, rule, message, source } = finding;
        return (
          <li key={rule + message} className="bw-finding" data-severity={severity}>
            <div className="bw-finding-head">
              {severity === 'note' ? (
                <span className="bw-second">{words.note}</span>
              ) : (
                <StateMark state={markOf(finding)} text={words[severity]} />
              )}
              <code className="bw-code bw-second">{rule}</code>
            </div>
            <div>
              <p>{findingText(message, units)}</p>
              <Numbers finding={finding} unit={unit} units={units} />
              <SourceNote>
                <SourceOf source={source} />
              </SourceNote>
              {taken === undefined ? null : (
                <p className="bw-finding-accepted">
                  <b>Accepted by {taken.person}</b>, {dayAndClockText(new Date(taken.at))}: {taken.reason}{' '}
                  <span className="bw-second">It stays what it is.</span>{' '}
                  {onWithdraw === undefined ? null : (
                    <button
                      type="button"
                      className="bw-link"
                      aria-label={`Withdraw the acceptance of ${rule}`}
                      onClick={() => onWithdraw(taken)}
                    >
                      Withdraw
                    </button>
                  )}
                </p>
              )}
              {taken !== undefined || severity === 'note' || onAccept === undefined ? null : (
                <Button size="compact-sm" aria-label={`Accept ${rule}…`} onClick={() => onAccept(finding)}>
                  Accept…
                </Button>
              )}
            </div>
          </li>
        );
      })}
    </ol>
  );
}

function Numbers({ finding, unit, units }: { finding: Finding } & Pick<FindingListProps, 'unit' | 'units'>) {
  const said = findingNumbers(finding, unit, units);
  return said === null ? null : <p className="bw-finding-numbers">{said}</p>;
}

/** Acceptances of findings that say something else by now, or are not found any more. */
export function LapsedAcceptances({
  findings,
  accepted,
  onWithdraw,
}: Pick<FindingListProps, 'findings' | 'accepted' | 'onWithdraw'>) {
  const lapsed = accepted.filter((one) => !findings.some((finding) => acceptanceOf(finding, [one]) !== undefined));
  if (lapsed.length === 0) return null;
  return (
    <section className="bw-callout-part" aria-label="Acceptances that hold no more">
      <h2>Hold no more</h2>
      <ul className="bw-callout-lines">
        {lapsed.map((one) => (
          <li key={one.rule + one.message + one.at}>
            {one.person} accepted <code className="bw-code">{one.rule}</code> on {dayAndClockText(new Date(one.at))} (
            {one.reason}), when it said: {one.message}{' '}
            {onWithdraw === undefined ? null : (
              <button
                type="button"
                className="bw-link"
                aria-label={`Take away the acceptance of ${one.rule}`}
                onClick={() => onWithdraw(one)}
              >
                Take it away
              </button>
            )}
          </li>
        ))}
      </ul>
    </section>
  );
}
