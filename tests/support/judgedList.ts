/** Invented callouts of every judgement, judged by the engine, as the report takes them. */
import { judgeCallouts } from '../../renderer/engine/callout/index.ts';
import type { Report } from '../../renderer/features/report/report.ts';
import { calloutRow } from '../../renderer/features/report/rowsOf.ts';

const columns = [
  'id',
  'thread',
  'torqueMin',
  'torqueMax',
  'torqueAlt',
  'strength',
  'nutFactor',
  'wrench',
  'head',
  'remark',
];

/** Eight kinds of callout in turn: sound ones, empty bands, dual units that disagree, preload beyond proof, wrong wrenches. */
const kinds: readonly (readonly string[])[] = [
  ['M10x1.5', '40 N·m', '50 N·m', '', '8.8', '0.2', '', '', 'sound'],
  ['M10x1.5', '50 N·m', '40 N·m', '', '', '', '', '', 'the wrong way round'],
  ['3/8-24 UNJF-3A', '20 lbf·ft', '25 lbf·ft', '20-60 N·m', '', '', '', '', 'units disagree'],
  ['M10x1.5', '90 N·m', '120 N·m', '', '8.8', '0.15', '', '', 'beyond proof'],
  ['M8', '20 N·m', '25 N·m', '', '', '', '15 mm', 'hex', 'wrong wrench'],
  ['3/8-24 UNJF-3A', '160 lbf·in', '190 lbf·in', '', '', '', '9/16 in', 'hex', 'sound'],
  ['M12', '70 N·m', '80 N·m', '', '10.9', '0.18', '', '', '<b>bold</b> & "quoted"'],
  ['M16', '150 N·m', '200 N·m', '', '8.8', '0.2', '24 mm', 'hex', 'sound'],
];

export function judgedReport(rows: number, name = 'Lamp platform, callouts'): Report {
  const cells = Array.from({ length: rows }, (_, at) => [
    `C-${String(at + 1).padStart(4, '0')}`,
    ...(kinds[at % kinds.length] ?? []),
  ]);
  const quoted = (line: readonly string[]): string => line.map((cell) => `"${cell.replaceAll('"', '""')}"`).join(',');
  const judged = judgeCallouts({ content: [columns, ...cells].map(quoted).join('\n'), skipBad: true });
  const typed = (line: readonly string[]) => Object.fromEntries(columns.map((column, at) => [column, line[at] ?? '']));
  return {
    heading: {
      subject: 'callouts',
      name,
      task: 'SR-01, Azimuth drive change',
      site: null,
      from: 'callouts.csv',
      person: 'Inspector one',
    },
    rows: judged.rows.map((row, at) => {
      const first = row.findings.find(({ severity }) => severity !== 'note');
      const accepted =
        first === undefined || at % 5 !== 1
          ? []
          : [
              {
                rule: first.rule,
                message: first.message,
                reason: 'Drawing note 7 governs.',
                person: 'Inspector two',
                at: '2026-11-25T09:00:00+01:00',
              },
            ];
      return calloutRow(row, { cells: typed(cells[at] ?? []), accepted });
    }),
    summary: judged.summary,
    unreadable: [
      {
        code: 'ambiguous-quantity',
        message: 'torqueMin: "45" has no unit',
        row: 9999,
        field: 'torqueMin',
        value: '45',
      },
    ],
    unknownColumns: judged.unknownColumns,
    notes: [],
  };
}
