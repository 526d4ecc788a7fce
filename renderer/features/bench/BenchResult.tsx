import type { FileToSave } from '../../../shared-types/host.ts';
import { cautionLead, cautionText } from '../../engine/caution.ts';
import { Assumed } from '../../components/Assumed/Assumed.tsx';
import { BandFigure } from '../../components/BandFigure/BandFigure.tsx';
import { CurvePlot } from '../../components/plot/CurvePlot.tsx';
import { CyclePlot } from '../../components/plot/CyclePlot.tsx';
import { PreloadPlot } from '../../components/plot/PreloadPlot.tsx';
import { StateMark } from '../../components/StateMark/StateMark.tsx';
import type { BenchAnswer, BenchFigure, BenchTable } from './benchSheet.ts';
import { Formula } from './Formula.tsx';
import { HexagonsDrawing } from './HexagonsDrawing.tsx';
import { OffsetHeadDrawing } from './OffsetHeadDrawing.tsx';
import { SourceLink, SourceList } from './SourceLinks.tsx';

export interface BenchResultProps {
  answer: BenchAnswer;
  onSave: (file: FileToSave) => Promise<unknown>;
  onRefused: (error: unknown) => void;
}

/** A result with all that stands beside it: drawing, formula with its numbers, range, assumptions, sources, rounding, caution. */
export function BenchResult({ answer, onSave, onRefused }: BenchResultProps) {
  const { lead, value, state, facts, formulas, tables, figures, queries } = answer;
  const [, first = value, second = ''] = /^(.*?) (\([^()]*\))$/.exec(value) ?? [];
  const saving = { onSave, onRefused };
  return (
    <div className="bw-bench-answer">
      <div className="bw-bench-main">
        <p className="bw-bench-head">
          <span className="bw-second">{lead}</span> <b className="bw-bench-value">{first}</b>{' '}
          {second === '' ? null : <span className="bw-bench-other">{second}</span>}
          {state === undefined ? null : (
            <span className="bw-bench-state">
              <StateMark state={state.mark} text={state.text} />
            </span>
          )}
        </p>
        {queries.length === 0 ? null : (
          <section className="bw-bench-query">
            <h3>To look at</h3>
            <ul>
              {queries.map((query) => (
                <li key={query}>{query}</li>
              ))}
            </ul>
          </section>
        )}
        {figures.slice(0, 1).map((figure, index) => (
          <Figure key={index} figure={figure} {...saving} />
        ))}
        {facts.length === 0 ? null : (
          <section>
            <h3>Result</h3>
            <dl className="bw-bench-facts">
              {facts.map((fact) => (
                <div key={fact.name}>
                  <dt>{fact.name}</dt>
                  <dd>{fact.value}</dd>
                </div>
              ))}
            </dl>
          </section>
        )}
        {formulas.length === 0 ? null : (
          <div className="bw-bench-formulas">
            {formulas.map(({ formula, put, note }) => (
              <div key={formula}>
                <p>
                  <Formula text={formula} />
                </p>
                <p>
                  <Formula text={put} />
                </p>
                {note === undefined ? null : <p className="bw-bench-note">{note}</p>}
              </div>
            ))}
          </div>
        )}
        {figures.slice(1).map((figure, index) => (
          <Figure key={index} figure={figure} {...saving} />
        ))}
        {tables.map((table) => (
          <ResultTable key={table.caption} table={table} />
        ))}
      </div>
      <div className="bw-bench-side">
        <section>
          <h3>Valid for</h3>
          <p>{answer.valid}</p>
        </section>
        <Assumed what={answer.assumed} />
        <section>
          <h3>Source</h3>
          <SourceList sources={answer.sources} />
        </section>
        <section>
          <h3>Rounding</h3>
          <p>{answer.rounding}</p>
        </section>
        <p className="bw-bench-caution">
          <b>{cautionLead}</b> {cautionText}
        </p>
      </div>
    </div>
  );
}

function Figure({ figure, ...saving }: { figure: BenchFigure } & Pick<BenchResultProps, 'onSave' | 'onRefused'>) {
  switch (figure.is) {
    case 'band':
      return <BandFigure {...figure.band} />;
    case 'offset-head':
      return (
        <OffsetHeadDrawing
          leverMm={figure.leverMm}
          headMm={figure.headMm}
          angleDeg={figure.angleDeg}
          unit={figure.unit}
        />
      );
    case 'hexagons':
      return (
        <HexagonsDrawing
          headMm={figure.headMm}
          openingMm={figure.openingMm}
          freeAngleDeg={figure.freeAngleDeg}
          words={figure.words}
        />
      );
    case 'curve':
      return <CurvePlot {...figure.plot} {...saving} />;
    case 'preload':
      return <PreloadPlot {...figure.plot} {...saving} />;
    default:
      return <CyclePlot {...figure.plot} {...saving} />;
  }
}

function ResultTable({ table: { caption, heads, rows } }: { table: BenchTable }) {
  return (
    <div className="bw-task-scroll" tabIndex={0} role="group" aria-label={`${caption}, scrolls sideways where narrow`}>
      <table className="bw-task-table bw-bench-table">
        <caption>{caption}</caption>
        <thead>
          <tr>
            {heads.map((head) => (
              <th key={head} scope="col">
                {head}
              </th>
            ))}
          </tr>
        </thead>
        <tbody>
          {rows.map((row, index) => (
            <tr key={index}>
              {row.map((cell, column) =>
                column === 0 ? (
                  <th key={column} scope="row">
                    <Cell cell={cell} />
                  </th>
                ) : (
                  <td key={column}>
                    <Cell cell={cell} />
                  </td>
                ),
              )}
            </tr>
          ))}
        </tbody>
      </table>
    </div>
  );
}

function Cell({ cell }: { cell: BenchTable['rows'][number][number] }) {
  return typeof cell === 'string' ? cell : <SourceLink source={{ ...cell.source, text: cell.text }} />;
}
