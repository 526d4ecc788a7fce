import type { CalloutLook } from '../../../shared-types/inspection.ts';
import { showNumber } from '../../engine/units/index.ts';
import type { Unit, UnitsShown } from '../../engine/units/index.ts';
import { forceUnitsFor, limitShown, shownIn } from '../bench/shown.ts';
import { spanShown } from './torqueWords.ts';

const percent = (share: number): string => `${showNumber(share * 100, 3)} %`;

/** The numbers the rules looked at. */
export function CalloutFacts({ look, unit, units }: { look: CalloutLook; unit: Unit; units: UnitsShown }) {
  const { row, locking } = look;
  if (row === null) return null;
  const { computed } = row;
  const [forceUnit] = forceUnitsFor(unit, computed.preloadN?.max ?? 0);
  const force = (n: number): string => shownIn(n, 'N', forceUnit, units);
  const lengths = (mm: number): string => shownIn(mm, 'mm', 'mm', units);
  const facts: [string, string][] = [];
  const add = (name: string, text: string | undefined): void => {
    if (text !== undefined) facts.push([name, text]);
  };
  const { aimNm, seatingNm, runningNm, ifRunningAdded, preloadN, greatestStressMPa, proofShare, yieldShare } = computed;
  if (aimNm !== undefined && runningNm !== undefined) add('On the wrench', spanShown(aimNm, unit, units));
  if (seatingNm !== undefined && runningNm !== undefined) add('Left for seating', spanShown(seatingNm, unit, units));
  if (ifRunningAdded !== undefined)
    add('On the wrench, were running added', spanShown(ifRunningAdded.aimNm, unit, units));
  if (preloadN !== undefined) {
    add('Preload, least', force(preloadN.min));
    add('Preload, nominal', force(preloadN.nominal));
    add('Preload, greatest', force(preloadN.max));
  }
  if (greatestStressMPa !== undefined) {
    const { tension, equivalent } = greatestStressMPa;
    add('Greatest tension', `${showNumber(tension)} MPa`);
    if (equivalent !== undefined) add('With torsion', `${showNumber(equivalent)} MPa`);
  }
  if (proofShare !== undefined) add('Of proof, greatest', percent(proofShare.max));
  if (yieldShare !== undefined) add('Of yield, greatest', percent(yieldShare.max));
  if (computed.head !== undefined) add('Across flats', `${computed.head.nominal} (${computed.head.document})`);
  if (computed.engagement?.requiredEngagementMm != null)
    add('Engagement needed', lengths(computed.engagement.requiredEngagementMm));
  if (computed.engagement?.failsFirst != null) add('Fails first', computed.engagement.failsFirst);
  if (computed.toolAccuracyMax !== undefined)
    add('Coarsest tool for the aim', `± ${percent(computed.toolAccuracyMax)}`);
  for (const [at, pass] of (computed.passesNm ?? []).entries()) add(`Pass ${at + 1}`, spanShown(pass, unit, units));
  if (computed.turn !== undefined) {
    const { angleDeg, advanceMm } = computed.turn;
    add('Turn', `${showNumber(angleDeg.min)}–${showNumber(angleDeg.max)}°`);
    add('Goes in by', `${lengths(advanceMm.min)} to ${lengths(advanceMm.max)}`);
  }
  return (
    <>
      {facts.length === 0 ? null : (
        <section className="bw-callout-part" aria-label="Computed">
          <h2>Computed</h2>
          <dl className="bw-callout-facts">
            {facts.map(([name, text]) => (
              <div key={name}>
                <dt>{name}</dt>
                <dd>{text}</dd>
              </div>
            ))}
          </dl>
        </section>
      )}
      {locking.length === 0 ? null : (
        <section className="bw-callout-part" aria-label="Locking documents">
          <h2>Locking, document by document</h2>
          <ul className="bw-callout-lines">
            {locking.map(({ document, runningMaxNm, breakawayMinNm, reusedMinNm }) => (
              <li key={document}>
                <b>{document}</b>
                {document === computed.locking?.document ? ', named here' : ''}:{' '}
                {[
                  runningMaxNm === null
                    ? null
                    : `running at most ${limitShown(runningMaxNm, 'maximum', 'N·m', unit, units)}`,
                  breakawayMinNm === null
                    ? null
                    : `breakaway at least ${limitShown(breakawayMinNm, 'minimum', 'N·m', unit, units)}`,
                  reusedMinNm === null
                    ? null
                    : `reused at least ${limitShown(reusedMinNm, 'minimum', 'N·m', unit, units)}`,
                ]
                  .filter(Boolean)
                  .join(', ') || 'nothing for this thread'}
              </li>
            ))}
          </ul>
        </section>
      )}
    </>
  );
}
