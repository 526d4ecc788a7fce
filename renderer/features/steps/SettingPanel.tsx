import type { PlanStep } from '../../../shared-types/plan.ts';
import type { BandNm, ResolvedPlan, ResolvedStep, ResolvedTool } from '../../engine/plan/resolved.ts';
import { shownBandNm, torqueParts } from '../../engine/torque/torqueParts.ts';
import type { JudgedStack, StepJudgement } from '../../engine/stack/judged.ts';
import { convertValue, showBand, showLimit, showNumber, showQuantity } from '../../engine/units/index.ts';
import type { UnitsShown } from '../../engine/units/index.ts';
import { Assumed } from '../../components/Assumed/Assumed.tsx';
import { partNotes } from './StepSources.tsx';

export interface SettingPanelProps {
  plan: ResolvedPlan;
  step: ResolvedStep;
  written: PlanStep;
  stack: JudgedStack | null;
  judgement: StepJudgement;
  units: UnitsShown;
}

/** The setting as the tool's own scale says it, the other unit in brackets. */
function settingText({ setting }: JudgedStack, units: UnitsShown): { first: string; second: string } | null {
  if (setting === null) return null;
  const text = showQuantity(`${setting.value} ${setting.unit}`, units === 'as-written' ? 'as-written' : 'both');
  const [, first = text, second = ''] = /^(.*?) (\(.*\))$/.exec(text) ?? [];
  return { first, second };
}

/** An applied band is no limit: its ends are rounded to four digits, not inward, which would make it narrower than it is. */
function appliedText({ minNm, maxNm }: BandNm, { shown }: ResolvedStep): string {
  const [min, max] = [minNm, maxNm].map((nm) => showNumber(convertValue(nm, 'N·m', shown.torque)));
  return `${min}–${max} ${shown.torque}`;
}

/** The setting's place in the tool's range, beside the least share the plan asks for. */
function shareText(stack: JudgedStack, tool: ResolvedTool | undefined, shareMin: number): string | null {
  const torque = tool?.torque ?? null;
  if (stack.applied === null || torque === null) return null;
  const share = (stack.applied.minNm + stack.applied.maxNm) / 2 / torque.maxNm;
  const asked =
    shareMin > 0 ? `the plan asks for at least ${showNumber(shareMin * 100, 3)} %` : 'the plan asks for no least share';
  return `Set at ${showNumber(share * 100, 2)} % of the tool’s maximum; ${asked}.`;
}

/** What the words beside the values take for granted. */
function assumptions({ plan, step, written, stack }: SettingPanelProps, tool: ResolvedTool | undefined): string[] {
  const said: string[] = [];
  if (step.action === 'tighten' && written.runningIncluded === undefined)
    said.push('the callout is the total on the wrench, running torque included; the plan does not say.');
  if (tool?.torque !== undefined && tool.torque !== null)
    said.push(
      `the tool reads within ± ${showNumber(tool.torque.accuracyOfReading * 100, 3)} % of its reading, as the plan states.`,
    );
  const assumed = partNotes(plan, stack?.stack ?? null).filter(({ notes }) => /assumed/i.test(notes));
  if (assumed.length > 0)
    said.push(
      `figures of ${assumed.map(({ id }) => id).join(', ')}, as the plan marks them; its words stand under the sources.`,
    );
  return said;
}

export function SettingPanel(props: SettingPanelProps) {
  const { plan, step, written, stack, judgement, units } = props;
  const parts = torqueParts(step);
  const tool = stack === null ? undefined : plan.tools.get(stack.stack[0] ?? '');
  const setting = stack === null ? null : settingText(stack, units);
  const share = stack === null ? null : shareText(stack, tool, plan.rangeShareMin);
  const loosening = step.action === 'loosen';
  return (
    <div className="bw-setting">
      <h3>{loosening ? 'Loosen' : 'Set the tool to'}</h3>
      {setting === null ? null : (
        <p className="bw-setting-value">
          {setting.first} <span>{setting.second}</span>
        </p>
      )}
      {!loosening && setting === null ? <p>No setting: no stack of this plan does the step.</p> : null}
      <dl className="bw-pairs">
        {written.callout === undefined ? null : (
          <Pair name="callout" value={showBand(written.callout.min, written.callout.max, units)} />
        )}
        {loosening && written.demand !== undefined ? (
          <Pair name="parts must bear" value={showLimit(written.demand, 'minimum', units)} />
        ) : null}
        {written.running === undefined ? null : (
          <Pair
            name={step.runningIncluded ? 'of it, running' : 'running, to be added'}
            value={showBand(written.running.min, written.running.max, units)}
          />
        )}
        {parts === null || parts.running === null ? null : (
          <Pair
            name={step.runningIncluded ? 'left for seating' : 'for seating'}
            value={parts.seating === null ? 'nothing: running takes it all' : shownBandNm(parts.seating, step, units)}
          />
        )}
        {parts === null || parts.running === null ? null : (
          <Pair name="sum on the wrench" value={shownBandNm(parts.wrench, step, units)} />
        )}
        {stack?.applied === undefined || stack.applied === null ? null : (
          <Pair name="applied, with deviation" value={appliedText(stack.applied, step)} />
        )}
        {judgement.turns === null ? null : (
          <Pair name={loosening ? 'turns to run off' : 'turns to seat'} value={showNumber(judgement.turns, 3)} />
        )}
        {judgement.strokes === null ? null : <Pair name="strokes" value={showNumber(judgement.strokes)} />}
      </dl>
      {share === null ? null : <p className="bw-source">{share}</p>}
      <Assumed what={assumptions(props, tool)} />
    </div>
  );
}

function Pair({ name, value }: { name: string; value: string }) {
  return (
    <>
      <dt>{name}</dt>
      <dd>{value}</dd>
    </>
  );
}
