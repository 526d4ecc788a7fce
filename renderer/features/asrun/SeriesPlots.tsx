import type { WearSeries } from '../../../shared-types/asRun.ts';
import type { FileToSave } from '../../../shared-types/host.ts';
import type { AsRunLine } from '../../../shared-types/inspection.ts';
import { CyclePlot } from '../../components/plot/CyclePlot.tsx';
import { SeatingPlot } from '../../components/plot/SeatingPlot.tsx';
import { breakawayLine } from '../../engine/asrun/nextBreakaway.ts';
import type { UnitsShown } from '../../engine/units/index.ts';
import { otherTorqueUnit, unitsShown } from '../bench/shown.ts';
import { recordUnit, seriesWords } from './recordWords.ts';

export interface SeriesPlotsProps {
  /** Of one position of one callout. */
  lines: readonly AsRunLine[];
  series: WearSeries | null;
  wearMethod: string;
  units: UnitsShown;
  onSave: (file: FileToSave) => Promise<unknown>;
  onRefused: (error: unknown) => void;
}

/** Of several passes of a cycle the last one counts. */
function lastOfCycles(lines: readonly AsRunLine[]): AsRunLine[] {
  const byCycle = new Map<number, AsRunLine>();
  for (const line of lines.toSorted((a, b) => (a.pass < b.pass ? -1 : a.pass > b.pass ? 1 : 0)))
    if (line.cycleNumber !== null) byCycle.set(line.cycleNumber, line);
  return [...byCycle.values()].toSorted((a, b) => (a.cycleNumber ?? 0) - (b.cycleNumber ?? 0));
}

/** One fastener over its cycles: what seated it, its running and breakaway torque, and when the locking is worn out. */
export function SeriesPlots({ lines, series, wearMethod, units, onSave, onRefused }: SeriesPlotsProps) {
  const cycles = lastOfCycles(lines);
  const last = cycles.at(-1);
  if (last === undefined) return null;
  const title = `${last.callout}, position ${last.position}`;
  const unit = recordUnit([last.final]);
  const small = recordUnit([last.breakaway, last.running, last.final]);
  const seated = cycles.flatMap(({ cycleNumber, seatingNm }) =>
    cycleNumber === null || seatingNm === null ? [] : [{ cycle: cycleNumber, torqueNm: seatingNm }],
  );
  const readings = cycles.flatMap(({ cycleNumber, runningNm, breakawayNm }) =>
    cycleNumber === null || (runningNm === null && breakawayNm === null)
      ? []
      : [{ cycle: cycleNumber, runningNm, breakawayNm }],
  );
  const broke = readings.filter(({ breakawayNm }) => breakawayNm !== null);
  const points = breakawayLine(broke.map(({ cycle, breakawayNm }) => ({ cycle, breakawayNm: breakawayNm ?? 0 })));
  const minimumNm = series?.minimumNm ?? last.breakawayMinNm;
  if (readings.length === 0 && seated.length < 2) return null;
  const of = last.seatingNm === last.finalNm ? 'final torque' : 'seating torque';
  return (
    <section className="bw-callout-part bw-series" aria-label={`${title} over its cycles`}>
      <h2>{title}, over its cycles</h2>
      {readings.length === 0 ? null : (
        <p className="bw-series-said">
          <b>Breakaway torque: </b>
          {seriesWords(series, broke.length)}
        </p>
      )}
      {readings.length === 0 ? null : (
        <CyclePlot
          readings={readings}
          limits={[
            ...(last.runningMaxNm === null
              ? []
              : [
                  {
                    torqueNm: last.runningMaxNm,
                    name: 'running at most',
                    source: 'callout or its document',
                    of: 'running',
                  } as const,
                ]),
            ...(minimumNm === null
              ? []
              : [
                  {
                    torqueNm: minimumNm,
                    name: 'breakaway at least',
                    source: 'callout or its document',
                    of: 'breakaway',
                  } as const,
                ]),
          ]}
          {...(points.length === 0 ? {} : { fit: { points, method: wearMethod } })}
          units={unitsShown(small, otherTorqueUnit(small, last.breakawayNm ?? last.runningNm ?? 1), units)}
          title={`Running and breakaway torque, ${title}`}
          source="As recorded, list at hand; limits of the callout or of the document it names."
          assumed={['No fastener is changed between the cycles.']}
          onSave={onSave}
          onRefused={onRefused}
        />
      )}
      {seated.length < 2 || last.bandNm === null ? null : (
        <SeatingPlot
          readings={seated}
          band={last.bandNm}
          of={of}
          units={unitsShown(unit, otherTorqueUnit(unit, last.bandNm.max), units)}
          title={`${of === 'final torque' ? 'Final' : 'Seating'} torque, ${title}`}
          source={
            of === 'final torque'
              ? 'Final torque as recorded: the callout’s band holds the running torque.'
              : 'Final torque less running torque of the same cycle.'
          }
          assumed={[]}
          onSave={onSave}
          onRefused={onRefused}
        />
      )}
    </section>
  );
}
