import type { ReactNode, Ref } from 'react';
import type { FileToSave } from '../../../shared-types/host.ts';
import type { CalloutLook } from '../../../shared-types/inspection.ts';
import type { AcceptedFinding } from '../../../shared-types/records/judgedLists.ts';
import type { Finding } from '../../../shared-types/judged.ts';
import { Assumed } from '../../components/Assumed/Assumed.tsx';
import { BandFigure } from '../../components/BandFigure/BandFigure.tsx';
import { PreloadPlot } from '../../components/plot/PreloadPlot.tsx';
import { StateMark } from '../../components/StateMark/StateMark.tsx';
import { cellNamed } from '../../engine/inspection/index.ts';
import { convertValue, showNumber } from '../../engine/units/index.ts';
import type { UnitsShown } from '../../engine/units/index.ts';
import { lineOfLook } from './lineOfLook.ts';
import { CalloutFacts } from './CalloutFacts.tsx';
import { FindingList, LapsedAcceptances } from '../judged/FindingList.tsx';
import { TypedCells, UnreadCells } from '../judged/TypedCells.tsx';
import { labelOf } from './calloutFields.ts';
import { calloutUnit, preloadData } from './preloadData.ts';
import { PublishedBands } from './PublishedBands.tsx';
import { LineMark } from '../judged/stateWords.tsx';
import { bandWords } from './torqueWords.ts';

export interface CalloutPaneProps {
  look: CalloutLook;
  accepted: readonly AcceptedFinding[];
  units: UnitsShown;
  headingRef: Ref<HTMLHeadingElement>;
  /** What can be done with it, beside its heading. */
  deeds: ReactNode;
  /** Steps that took it. */
  steps?: ReactNode;
  onAccept?: (finding: Finding) => void;
  onWithdraw?: (accepted: AcceptedFinding) => void;
  /** Opens the form with what would conform written in. */
  onTry?: ((cells: { torqueMin: string; torqueMax: string }) => void) | undefined;
  onSave: (file: FileToSave) => Promise<unknown>;
  onRefused: (error: unknown) => void;
}

/** One callout: what is decided and why, drawn to scale, and what would conform. */
export function CalloutPane(props: CalloutPaneProps) {
  const { look, accepted, units, headingRef, deeds, steps, onAccept, onWithdraw, onTry, onSave, onRefused } = props;
  const { row, cells, refusals } = look;
  const id = row?.id ?? cellNamed(cells, 'id');
  const line = lineOfLook(look, accepted);
  const unit = calloutUnit(cells);
  const plot = preloadData(look, units);
  const findings = row?.findings ?? [];
  const names = [
    ...new Set(
      accepted
        .filter((one) => findings.some(({ rule, message }) => rule === one.rule && message === one.message))
        .map(({ person }) => person),
    ),
  ];
  return (
    <article className="bw-callout" aria-labelledby="callout-heading">
      <header className="bw-callout-head">
        <h1 id="callout-heading" ref={headingRef} tabIndex={-1} className="bw-heading">
          {id === '' ? 'Callout without id' : id}
        </h1>
        <span className="bw-second">
          {cellNamed(cells, 'thread')} · {bandWords(line.band, units)}
        </span>
        <span className="bw-callout-deeds">{deeds}</span>
      </header>
      <p className="bw-callout-said">
        <LineMark line={line} />
        {names.length === 0 ? null : <span> by {names.join(', ')}</span>}
      </p>
      {row === null ? null : (
        <section className="bw-callout-part" aria-label="Bands of torque">
          <Bands look={look} units={units} />
        </section>
      )}
      <UnreadCells refusals={refusals} what="row" named={(field) => labelOf.get(field) ?? field} />
      {findings.length === 0 ? null : (
        <section aria-label={`Findings on ${id}`}>
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
      <WouldConform look={look} onTry={onTry} />
      {steps}
      {row === null ? null : (
        <>
          {plot === null ? null : (
            <PreloadPlot
              {...plot}
              title={`Preload against torque, ${id}`}
              source={`${row.computed.thread}; ${look.preload?.formula ?? ''}.`}
              assumed={[...row.computed.assumptions]}
              onSave={onSave}
              onRefused={onRefused}
            />
          )}
          <section className="bw-callout-part" aria-label="Published bands">
            <h2>Published for {row.computed.thread}</h2>
            <PublishedBands look={look} unit={unit} units={units} />
          </section>
          <CalloutFacts look={look} unit={unit} units={units} />
          {plot === null ? <Assumed what={[...row.computed.assumptions]} /> : null}
        </>
      )}
      <TypedCells cells={cells} />
    </article>
  );
}

function WouldConform({ look, onTry }: Pick<CalloutPaneProps, 'look' | 'onTry'>) {
  if (look.mends.length === 0) return null;
  return (
    <section className="bw-callout-mends" aria-label="What would conform">
      <h2>What would conform</h2>
      <ul className="bw-callout-lines">
        {look.mends.map(({ rules, text, cells }) => (
          <li key={rules.join(' ')}>
            {text} <code className="bw-code bw-second">{rules.join(', ')}</code>{' '}
            {cells === undefined || onTry === undefined ? null : (
              <button type="button" className="bw-link" onClick={() => onTry(cells)}>
                Write it into the form
              </button>
            )}
          </li>
        ))}
      </ul>
    </section>
  );
}

function Bands({ look, units }: { look: CalloutLook; units: UnitsShown }) {
  const { row, cells, toolAccuracy, runningIncluded } = look;
  if (row === null) return null;
  const { calloutNm, runningNm, aimNm } = row.computed;
  if (calloutNm.min > calloutNm.max)
    return (
      <p>
        <StateMark state="nonconforming" text="No torque lies in a band whose least is above its greatest." />
      </p>
    );
  const unit = calloutUnit(cells);
  const middleNm = aimNm === undefined ? 0 : (aimNm.min + aimNm.max) / 2;
  const hasTool = toolAccuracy !== null && aimNm !== undefined;
  return (
    <BandFigure
      callout={{ minNm: calloutNm.min, maxNm: calloutNm.max }}
      applied={hasTool ? { minNm: middleNm * (1 - toolAccuracy), maxNm: middleNm * (1 + toolAccuracy) } : null}
      setting={hasTool ? { value: Number(showNumber(convertValue(middleNm, 'N·m', unit))), unit } : null}
      running={runningNm === undefined ? null : { minNm: runningNm.min, maxNm: runningNm.max }}
      runningIncluded={runningIncluded !== false}
      unit={unit}
      units={units}
    />
  );
}
