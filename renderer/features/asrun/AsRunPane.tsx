import type { ReactNode, Ref } from 'react';
import type { FileToSave } from '../../../shared-types/host.ts';
import type { AsRunLine, AsRunLook, AsRunTableJudged } from '../../../shared-types/inspection.ts';
import type { Finding } from '../../../shared-types/judged.ts';
import type { AcceptedFinding } from '../../../shared-types/records/judgedLists.ts';
import { acceptanceOf, countOpen } from '../../engine/inspection/index.ts';
import { showNumber } from '../../engine/units/index.ts';
import type { UnitsShown } from '../../engine/units/index.ts';
import { shownIn } from '../bench/shown.ts';
import { spanShown } from '../callouts/torqueWords.ts';
import { FindingList, LapsedAcceptances } from '../judged/FindingList.tsx';
import { TypedCells, UnreadCells } from '../judged/TypedCells.tsx';
import { PatternChart } from './PatternChart.tsx';
import type { KnownPattern } from './patternOf.ts';
import { recordName, recordTitle } from './recordActs.ts';
import { RecordMark } from './RecordMark.tsx';
import { recordUnit } from './recordWords.ts';
import { SeriesPlots } from './SeriesPlots.tsx';

export interface AsRunPaneProps {
  look: AsRunLook;
  accepted: readonly AcceptedFinding[];
  /** Every line of the list, for the pattern and the series that the record is of. */
  lines: readonly AsRunLine[];
  judged: AsRunTableJudged;
  /** Where the callout's positions lie; null where nothing says it. */
  pattern: KnownPattern | null;
  units: UnitsShown;
  headingRef: Ref<HTMLHeadingElement>;
  deeds: ReactNode;
  onAccept?: (finding: Finding) => void;
  onWithdraw?: (accepted: AcceptedFinding) => void;
  onSelect: (key: string) => void;
  /** To every value of its tool. */
  onTool: (serial: string) => void;
  onSave: (file: FileToSave) => Promise<unknown>;
  onRefused: (error: unknown) => void;
}

/** One record: what is decided and why, the pattern it is of, and its fastener over the cycles. */
export function AsRunPane(props: AsRunPaneProps) {
  const { look, accepted, lines, judged, pattern, units, headingRef, deeds } = props;
  const { onAccept, onWithdraw, onSelect, onTool, onSave, onRefused } = props;
  const { key, row, cells, refusals } = look;
  const name = row?.id ?? recordName(cells);
  const line = lines.find((one) => one.key === key);
  const findings = row?.findings ?? [];
  const unit = recordUnit([line?.final ?? '']);
  const isReopened = findings.some((one) => one.rule === 'tool-found-out' && acceptanceOf(one, accepted) === undefined);
  const held = { state: row === null ? ('unreadable' as const) : row.decision, ...countOpen(findings, accepted) };
  const together = lines.filter(
    (one) =>
      line !== undefined &&
      one.state !== 'unreadable' &&
      one.callout === line.callout &&
      one.cycle === line.cycle &&
      one.pass === line.pass,
  );
  const asked = judged.orders.find((one) => one.callout === line?.callout);
  const order = asked?.positions ?? [];
  const over = lines.filter(
    (one) => line !== undefined && one.callout === line.callout && one.position === line.position,
  );
  return (
    <article className="bw-callout" aria-labelledby="record-heading">
      <header className="bw-callout-head">
        <h1 id="record-heading" ref={headingRef} tabIndex={-1} className="bw-heading">
          {recordTitle(cells)}
        </h1>
        <span className="bw-callout-deeds">{deeds}</span>
      </header>
      <p className="bw-callout-said">
        <RecordMark line={{ ...held, reopened: isReopened }} />
        {row === null ? null : (
          <span className="bw-second">
            {' '}
            callout {spanShown(row.computed.bandNm, unit, units)}
            {row.computed.seatingNm === null || row.computed.judgedAs === 'final'
              ? ''
              : `, of what seats: ${shownIn(row.computed.seatingNm, 'N·m', unit, units)}`}
          </span>
        )}
      </p>
      <UnreadCells refusals={refusals} what="record" />
      {findings.length === 0 ? null : (
        <section aria-label={`Findings on ${name}`}>
          <FindingList
            findings={findings}
            accepted={accepted}
            unit={unit}
            units={units}
            onAccept={onAccept}
            onWithdraw={onWithdraw}
          />
        </section>
      )}
      <LapsedAcceptances findings={findings} accepted={accepted} onWithdraw={onWithdraw} />
      {row === null || line === undefined ? null : (
        <>
          <p className="bw-asrun-tool">
            {row.serial === null ? (
              'No serial is recorded: which tool gave the value cannot be told.'
            ) : (
              <>
                Tool {row.tool ?? ''} <b>{row.serial}</b>
                {row.time === null ? '' : `, ${row.time}`}
                {row.temperatureC === null ? '' : `, ${showNumber(row.temperatureC)} °C`}.{' '}
                <button type="button" className="bw-link" onClick={() => onTool(row.serial ?? '')}>
                  Every value of {row.serial}
                </button>
              </>
            )}
          </p>
          {together.length < 2 && order.length < 2 ? null : (
            <PatternChart
              lines={together}
              order={order}
              orderFrom={asked?.from ?? null}
              pattern={pattern}
              title={`${line.callout}, cycle ${line.cycle}${line.pass === '' ? '' : `, pass ${line.pass}`}`}
              units={units}
              selected={key}
              onSelect={onSelect}
              onSave={onSave}
              onRefused={onRefused}
            />
          )}
          <SeriesPlots
            lines={over}
            series={look.series}
            wearMethod={judged.wearMethod}
            units={units}
            onSave={onSave}
            onRefused={onRefused}
          />
        </>
      )}
      <TypedCells cells={cells} />
    </article>
  );
}
