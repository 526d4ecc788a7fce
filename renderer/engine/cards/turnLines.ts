import type { BagStep } from '../../../shared-types/bag.ts';
import type { ResolvedPlan, ResolvedStep } from '../plan/resolved.ts';
import type { StackParts } from '../stack/stackTask.ts';
import { stepTurning } from '../stack/stepTurning.ts';
import { shownBandNm } from '../torque/torqueParts.ts';
import { gripForceN } from '../turning/index.ts';
import { convertValue, readUnit, showBand, showLimit, showNumber } from '../units/index.ts';
import type { UnitsShown } from '../units/index.ts';
import type { BoxColumn, CardLine, CardTurn } from './card.ts';
import { passSetting } from './passSetting.ts';
import { expectedRunning, isLocking, runningLimitTexts, runningUnit } from './running.ts';
import { positionsOf } from './stepFacts.ts';
import type { StepFacts } from './stepFacts.ts';
import { stopOfStack } from './stop.ts';
import { authorityText, countText, forceText, limitText, settingValue } from './words.ts';

/** A step that turns something, with the stack its bag has for it. */
export interface Turned {
  plan: ResolvedPlan;
  step: ResolvedStep;
  number: number;
  facts: StepFacts | undefined;
  answer: BagStep;
  parts: StackParts;
  turn: CardTurn;
  where: string;
  count: number;
  units: UnitsShown;
}

export interface TurnedLines {
  lines: CardLine[];
  columns: BoxColumn[];
  notes: string[];
}

const words = (text: string): CardLine['value'] => ({ kind: 'words', text });
const limit = (text: string): CardLine['value'] => ({ kind: 'limit', text });

/** Lines of tightening: run in, passes, the final setting, the value to be read, where to stop. */
export function tightenLines(x: Turned): TurnedLines {
  const { plan, step, number, facts, answer, parts, where, count, units } = x;
  const { setting } = answer;
  const of = `${count} of ${count}`;
  const unit = setting?.unit ?? step.shown.torque;
  const inOrder = positionsOf(facts, count).orderFrom === null ? '' : ', in order';
  const run = runLine(x, 'Run in to the seat');
  const lines: CardLine[] = run === null ? [] : [run.line];
  const columns: BoxColumn[] = run?.columns ?? [];
  const notes: string[] = [];
  const stop = stopOfStack(plan, step, parts);
  const mostNm = step.aim?.maxNm ?? null;
  const byCallout = mostNm !== null && (stop.torqueNm === null || mostNm <= stop.torqueNm);
  const stopNm = byCallout ? mostNm : stop.torqueNm;
  if (stopNm !== null)
    lines.push({
      kind: 'stop',
      reach: byCallout
        ? `Stop: never more on the wrench; the callout ends here. ${partsText(x, stop.torqueNm, stop.setBy)}`
        : `Stop: never more; weakest is ${stop.setBy}`,
      where,
      count: `each of ${count}`,
      value: limit(limitText(stopNm, step, units)),
    });
  if (setting !== null) {
    const passes = (facts?.passes ?? []).map((pass) => ({
      pass,
      made: passSetting(pass, setting, parts.tool, plan.rangeShareMin),
    }));
    for (const [index, { pass, made }] of passes.entries()) {
      const name = `Pass ${index + 1}`;
      if (!('setting' in made)) {
        lines.push({
          kind: 'pass',
          reach: `${name}, ${pass}: by another tool${inOrder}`,
          where,
          count: of,
          value: words('no setting here'),
        });
        notes.push(`${name}: ${made.reason}.`);
        continue;
      }
      if (made.isFinal) continue;
      lines.push({
        kind: 'pass',
        reach: `${name}, ${pass}: all at this${inOrder}`,
        where,
        count: of,
        value: settingValue(made.setting, step, units),
      });
      columns.push({ step: number, name, unit });
    }
    lines.push({
      kind: 'final',
      reach: `${passes.length > 0 ? 'Final pass: all' : 'All'} at this${inOrder}; ${parts.tool.id} set to it${handText(x, settingNm(setting))}`,
      where,
      count: of,
      value: settingValue(setting, step, units),
    });
    const band = wrenchText(plan, step, units);
    if (band !== null)
      lines.push({
        kind: 'read',
        reach: `Value read at each, written in its box, lies in the ${band.of}`,
        where,
        count: countText(count, 'value'),
        value: limit(band.text),
      });
    columns.push({ step: number, name: 'Final', unit });
    notes.push(authorityText(setting, step), ...appliedNotes(x), ...forceNotes(x));
  }
  return { lines, columns, notes: [...notes, ...runningNotes(x), stop.reason ?? stop.note] };
}

/** Lines of loosening: what to expect, how far to turn, where to stop. */
export function loosenLines(x: Turned): TurnedLines {
  const { plan, step, number, parts, where, count, units } = x;
  const stop = stopOfStack(plan, step, parts);
  const run = runLine(x, 'Run out');
  const demand = plan.source.steps.find(({ id }) => id === step.id)?.demand;
  const lines: CardLine[] = [];
  if (stop.torqueNm !== null)
    lines.push({
      kind: 'stop',
      reach: `Stop: not turning at this, turn no further. Weakest is ${stop.setBy}`,
      where,
      count: `each of ${count}`,
      value: limit(limitText(stop.torqueNm, step, units)),
    });
  lines.push({
    kind: 'loosen',
    reach: `All broken loose${step.demandNm === null ? '' : handText(x, step.demandNm)}`,
    where,
    count: `${count} of ${count}`,
    value:
      demand === undefined ? words('torque not given') : words(`expect up to ${showLimit(demand, 'maximum', units)}`),
  });
  if (run !== null) lines.push(run.line);
  const reads = parts.tool.torque !== null;
  return {
    lines,
    columns: [...(reads ? [{ step: number, name: 'Loose at', unit: toolUnit(x) }] : []), ...(run?.columns ?? [])],
    notes: [...forceNotes(x), ...runningNotes(x), stop.reason ?? stop.note],
  };
}

function toolUnit({ parts, step }: Turned): string {
  const { torque } = parts.tool;
  return torque?.increment?.unit ?? torque?.settings?.[0]?.unit ?? step.shown.torque;
}

/** Turns, strokes and the running torque to expect; null where nothing is known of either. */
function runLine(x: Turned, verb: string): { line: CardLine; columns: BoxColumn[] } | null {
  const { plan, step, number, answer, parts, where, count, units } = x;
  const known = stepTurning(step, parts);
  const turns = answer.turns ?? known.turns;
  const strokes = answer.strokes ?? known.strokes;
  const expected = expectedRunning(plan, step, units);
  const locks = isLocking(plan, step);
  if (turns === null && !locks) return null;
  const said =
    turns === null
      ? ''
      : `: ${showNumber(turns, 3)} turns${strokes === null ? '' : `, ${showNumber(strokes)} strokes`}`;
  const torque = locks
    ? `. Running torque ${expected === null ? 'not given: written as read' : `expected ${expected}, written as read`}`
    : '';
  return {
    line: {
      kind: 'run',
      reach: `${verb}${said}, ${x.turn.turn}${torque}`,
      where,
      count: `${count} of ${count}`,
      value: turns === null ? words(expected ?? 'as read') : words(`${showNumber(turns, 3)} turns`),
    },
    columns: [
      ...(locks ? [{ step: number, name: 'Running', unit: runningUnit(plan, step) }] : []),
      ...(turns === null ? [] : [{ step: number, name: 'Turns', unit: '' }]),
    ],
  };
}

/** Where the value on the wrench must lie: the callout, with the running torque where that is to be added. */
function wrenchText(plan: ResolvedPlan, step: ResolvedStep, units: UnitsShown): { of: string; text: string } | null {
  const written = plan.source.steps.find(({ id }) => id === step.id)?.callout;
  if (written === undefined) return null;
  if (step.running !== null && !step.runningIncluded && step.aim !== null)
    return { of: 'callout with running torque added', text: shownBandNm(step.aim, step, units) };
  return { of: 'callout', text: showBand(written.min, written.max, units) };
}

const settingNm = ({ value, unit }: { value: number; unit: string }): number =>
  convertValue(value, readUnit(unit).unit, 'N·m');

function appliedNotes({ answer, parts }: Turned): string[] {
  const accuracy = parts.tool.torque?.accuracyOfReading ?? null;
  const { setting } = answer;
  if (setting === null || accuracy === null) return [];
  const [low, high] = [setting.value * (1 - accuracy), setting.value * (1 + accuracy)];
  return [
    `${parts.tool.id} applies ${showNumber(low)}–${showNumber(high)} ${setting.unit} at ± ${showNumber(accuracy * 100)} % of reading.`,
  ];
}

/** What a hand gives at the grip for a torque. */
function handText({ parts }: Turned, torqueNm: number): string {
  const { leverMm } = parts.tool;
  return leverMm === null ? '' : `, hand ${forceText(gripForceN({ torqueNm, leverMm }))} at its grip`;
}

function forceNotes({ parts }: Turned): string[] {
  const { id, leverMm } = parts.tool;
  return leverMm === null
    ? [`Hand force not known: no lever length is given for ${id}.`]
    : [`Hand force is torque ÷ lever; the lever of ${id} is ${showNumber(leverMm)} mm.`];
}

function partsText({ step, units }: Turned, torqueNm: number | null, setBy: string | null): string {
  return torqueNm === null
    ? 'What the parts bear is not held'
    : `Parts bear ${limitText(torqueNm, step, units)}, weakest ${setBy}`;
}

function runningNotes({ plan, step, units }: Turned): string[] {
  const limits = runningLimitTexts(plan, step, units);
  if (step.callout === null || step.running === null) return limits;
  return [
    step.runningIncluded
      ? 'Running torque is in the callout, which is the total on the wrench.'
      : 'Running torque is added to the callout in the setting.',
    ...limits,
  ];
}
