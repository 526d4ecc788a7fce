import type { BagOuting, BagResult, Infeasibility, PlanProblem } from '../../../shared-types/bag.ts';
import type { BagReasons } from '../../../shared-types/bagReasons.ts';
import { cautionLead, cautionShort } from '../caution.ts';
import { courseOf } from '../outing/course.ts';
import { courseLines } from '../outing/courseText.ts';
import type { ResolvedPlan } from '../plan/resolved.ts';
import { showNumber } from '../units/index.ts';
import { askedLines } from './askedText.ts';
import { figuresBasis, stepTorqueText } from './figuresBasis.ts';
import { reasonHeadings, reasonLines } from './reasons/reasonLines.ts';

/** The answer of `bag` for reading: proof, bags, stacks, whatever is wrong, and its reasons where they are asked for. */
export function bagText(
  plan: ResolvedPlan,
  result: BagResult,
  reasons?: BagReasons,
  course = courseOf(plan, result.outings),
): string {
  const lines = [
    headingText(result),
    ...askedLines(result).flatMap((sentence) => wrapped(sentence)),
    ...result.outings.flatMap((outing) => ['', ...outingLines(plan, outing)]),
    ...section('Cannot be done', result.infeasible.flatMap(infeasibleLines)),
    ...section('Problems of the plan', result.problems.map(problemText)),
    ...(reasons ? reasonSections(result, reasons) : []),
    ...section(
      'How the outings run',
      courseLines(course).flatMap(({ outing, says }) => wrapped(outing === '' ? says : `${outing}: ${says}`)),
    ),
    ...section(
      'Not checked, because the plan does not give it',
      result.unchecked.map(({ rule, steps, items }) => `${rule}: ${[...(steps ?? []), ...(items ?? [])].join(', ')}`),
    ),
    '',
    'What the figures rest on',
    ...figuresBasis(plan).flatMap((sentence) => wrapped(sentence, '  ')),
    '',
    ...wrapped(`${cautionLead} ${cautionShort}`),
    '',
  ];
  return lines.join('\n');
}

/** The proof in one line. */
export function headingText({ status, objective }: BagResult): string {
  if (!objective) return 'No bag: the plan cannot be done as it stands.';
  const value = `${showNumber(objective.value)} ${objective.unit}`;
  if (status === 'optimal') return `Proved least: ${value}.`;
  return `Not proved: ${value}, nothing below ${showNumber(objective.bound)} ${objective.unit} (within ${showNumber(objective.gap * 100)} %).`;
}

/** One problem of the plan in one line. */
export function problemText({ rule, outing, step, id, quantity, place }: PlanProblem): string {
  const where = [`outing ${outing}`, step && `step ${step}`, place && `at ${place}`].filter(Boolean).join(', ');
  return `${rule}: ${showNumber(quantity)} ${rule === 'over-time' ? 'min' : `× ${id}`} (${where})`;
}

function outingLines(plan: ResolvedPlan, outing: BagOuting): string[] {
  const name = plan.outings.find((o) => o.id === outing.id)?.name ?? outing.id;
  const pieces = outing.items.reduce((sum, item) => sum + item.quantity, 0);
  const bags = [...new Set(outing.items.map((item) => item.bag))];
  return [
    `Outing ${name}: ${pieces} pieces, ${showNumber(outing.massKg)} kg with the bags`,
    ...bags.flatMap((bag) => [
      `  Bag ${plan.bags.get(bag)?.name ?? bag}`,
      ...outing.items
        .filter((item) => item.bag === bag)
        .map(
          (item) =>
            `    ${item.quantity} × ${item.id}  ${plan.carried.get(item.id)?.name ?? ''}  for ${item.because.join(', ')}`,
        ),
    ]),
    '  Stacks',
    ...outing.steps
      .filter((step) => step.stack.length > 0)
      .flatMap(({ id, stack, hold, setting }) => {
        const held = hold ? `; hold with ${hold.join(' + ')}` : '';
        const set = setting ? `; set ${showNumber(setting.value)} ${setting.unit}` : '';
        return [`    ${id}: ${stack.join(' + ')}${set}${held}`, ...wrapped(stepTorqueText(plan, id), '      ')];
      }),
  ];
}

function infeasibleLines({ reason, closest }: Infeasibility): string[] {
  return [
    reason,
    ...closest.map(({ stack, fails }) => {
      const what = fails.map(({ check, have, need }) => `${check}: has ${have}, needs ${need}`).join('; ');
      return `  ${stack.length > 0 ? `${stack.join(' + ')}: ` : ''}${what}`;
    }),
  ];
}

function reasonSections({ objective }: BagResult, reasons: BagReasons): string[] {
  const lines = reasonLines(reasons, objective?.value ?? null);
  return Object.entries(reasonHeadings).flatMap(([kind, heading]) => {
    const said = lines
      .filter((line) => line.kind === kind)
      .map(({ outing, says }) => (outing === null || says.startsWith('outing ') ? says : `outing ${outing}: ${says}`));
    return said.length === 0 ? [] : ['', heading, ...said.flatMap((sentence) => wrapped(sentence, '  '))];
  });
}

function section(title: string, lines: readonly string[]): string[] {
  return lines.length === 0 ? [] : ['', title, ...lines.map((line) => `  ${line}`)];
}

const widestLine = 112;

function wrapped(text: string, indent = ''): string[] {
  const lines = [''];
  for (const word of text.split(' ')) {
    const longer = `${lines.at(-1)} ${word}`.trimStart();
    const fits = indent.length + longer.length <= widestLine;
    if (fits) lines.pop();
    lines.push(fits ? longer : word);
  }
  return lines.filter((line) => line !== '').map((line) => `${indent}${line}`);
}
