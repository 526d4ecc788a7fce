import { cautionLead, cautionShort } from '../../engine/caution.ts';
import { fieldsNow, type BenchAnswer, type BenchSheet, type Typed } from './benchSheet.ts';
import { formulaText } from './formula.ts';

const cellText = (cell: string | { text: string }): string => (typeof cell === 'string' ? cell : cell.text);

function choiceText(sheet: BenchSheet, key: string, value: string): string {
  const field = sheet.fields.find((one) => one.key === key);
  return field?.is === 'choice' ? (field.choices.find((choice) => choice.value === value)?.label ?? value) : value;
}

/** What was put in, field by field, in the order of the form. */
function typedLines(sheet: BenchSheet, typed: Typed): string[] {
  return fieldsNow(sheet, typed).flatMap(({ key, label }) => {
    const text = (typed[key] ?? '').trim();
    return text === '' ? [] : [`${label}: ${choiceText(sheet, key, text).replaceAll('\n', '; ')}`];
  });
}

/** "nonconforming-over" as its mark says it: "Nonconforming, over". */
function stateWord(mark: string): string {
  return mark.charAt(0).toUpperCase() + mark.slice(1).replace('-', ', ');
}

/** A result with everything that stands beside it, as plain text: to be copied, and to be kept with a task. */
export function answerText(sheet: BenchSheet, typed: Typed, answer: BenchAnswer): string {
  const { lead, value, state, facts, formulas, tables, queries, valid, assumed, sources, rounding } = answer;
  const lines = [
    sheet.name,
    `${lead}: ${value}${state === undefined ? '' : ` (${state.text ?? stateWord(state.mark)})`}`,
    '',
    'Put in',
    ...typedLines(sheet, typed).map((line) => `  ${line}`),
    ...block(
      'Result',
      facts.map((fact) => `${fact.name}: ${fact.value}`),
    ),
    ...block(
      'Formula',
      formulas.flatMap(({ formula, put, note }) => [
        formulaText(formula),
        formulaText(put),
        ...(note === undefined ? [] : [note]),
      ]),
    ),
    ...tables.flatMap(({ caption, heads, rows }) =>
      block(caption, [heads.join(' | '), ...rows.map((row) => row.map(cellText).join(' | '))]),
    ),
    ...block('To look at', queries),
    ...block('Valid for', [valid]),
    ...block('Assumed', assumed),
    ...block(
      'Source',
      sources.map(({ text }) => text),
    ),
    ...block('Rounding', [rounding]),
    '',
    `${cautionLead} ${cautionShort}`,
  ];
  return lines.join('\n');
}

function block(heading: string, lines: readonly string[]): string[] {
  return lines.length === 0 ? [] : ['', heading, ...lines.map((line) => `  ${line}`)];
}
