import type { Decision, Finding } from '../../../shared-types/judged.ts';
import { showNumber } from '../../engine/units/index.ts';
import { html, type Markup, type Part } from '../manifest/html.ts';
import { caution, list } from '../manifest/manifestBody.ts';
import { typed } from './typed.ts';
import { spoken } from '../manifest/pageFurniture.ts';
import {
  acceptanceIn,
  decisionWords,
  howJudged,
  openFindings,
  severityWords,
  subjectWords,
  type Report,
  type ReportRow,
} from './report.ts';
import { numberedList, sourceList, type NumberedList } from './sourceList.ts';

/** Its shape is a background, one for all rows: drawn within each of thousands, it takes a fifth of the time to print them. */
function mark(decision: Decision): Markup {
  return html`<b class="mark ${decision}">${decisionWords[decision]}</b>`;
}

export function reportHead(report: Report, dataTime: string): Markup {
  const { heading, rows, unreadable } = report;
  const words = subjectWords[heading.subject];
  const facts: [string, string | null][] = [
    ['Task', heading.task],
    ['Site', heading.site],
    ['Taken from', heading.from],
    ['Data of', spoken(dataTime)],
    ['Reported by', heading.person === '' ? null : heading.person],
  ];
  return html`<p class="small">${words.title}</p>
    <h1>${typed(heading.name)}</h1>
    <dl class="facts">
      ${facts.map(([name, text]) =>
        text === null
          ? null
          : html`<dt>${name}</dt>
              <dd>${typed(text)}</dd>`,
      )}
    </dl>
    ${caution()}${countsTable(report)}
    <p class="small">
      ${count(rows.length, words.one, words.many)}
      judged${unreadable.length === 0 ? '' : `; ${unreadCount(unreadable)}`}.
    </p>`;
}

function unreadCount(unreadable: Report['unreadable']): string {
  const rows = new Set(unreadable.map(({ row }) => row)).size;
  return rows === 1 ? '1 row cannot be read, and is not judged' : `${rows} rows cannot be read, and are not judged`;
}

function countsTable({ rows }: Report): Markup {
  const line = (decision: Decision): Markup => {
    const those = rows.filter((row) => row.decision === decision);
    const open = those.filter((row) => openFindings(row) > 0).length;
    const rest =
      decision === 'conforming' || those.length === 0
        ? ''
        : open === 0
          ? 'every finding accepted'
          : `${open} with findings nobody has accepted`;
    return html`<tr>
      <th scope="row">${mark(decision)}</th>
      <td class="num">${those.length}</td>
      <td>${rest}</td>
      <td>${decision === 'conforming' ? null : idList(those)}</td>
    </tr>`;
  };
  return html`<table class="counts">
    <colgroup>
      <col style="width:36mm" />
      <col style="width:14mm" />
      <col style="width:66mm" />
      <col />
    </colgroup>
    <tbody>
      ${line('nonconforming')}${line('indeterminate')}${line('conforming')}
    </tbody>
  </table>`;
}

const idsMost = 40;

function idList(rows: readonly ReportRow[]): Part {
  if (rows.length === 0) return null;
  const ids = rows
    .slice(0, idsMost)
    .map(({ id }, at) => html`${at === 0 ? '' : ', '}<span class="whole">${typed(id)}</span>`);
  return html`<span class="small">${ids}${rows.length > idsMost ? ` and ${rows.length - idsMost} more` : ''}</span>`;
}

/** Sources, and notes: the same note stands under many rows, and is said once. */
interface Lists {
  sources: NumberedList;
  notes: NumberedList;
}

export function findingsTable(report: Report): Markup {
  const findings = report.rows.flatMap((row) => row.findings);
  const sources = sourceList(findings);
  const notes = numberedList(
    findings.filter(isNote),
    (note) =>
      `${note.about === undefined ? note.rule : `${note.rule}, ${note.about}`}: ${note.message} [${sources.of(note)}]`,
  );
  const lists = { sources, notes };
  const [body, last] = [report.rows.slice(0, -1), report.rows.at(-1)];
  return html`<h2>Findings</h2>
    <table class="found">
      <colgroup>
        <col style="width:33mm" />
        <col />
        <col style="width:37mm" />
      </colgroup>
      <thead>
        <tr>
          <th scope="col">Severity, rule</th>
          <th scope="col">What was found, its source, and who accepts it</th>
          <th scope="col">Value, limit</th>
        </tr>
      </thead>
      ${body.map(
        (row) =>
          html`<tbody>
            ${rowLines(row, lists)}
          </tbody>`,
      )}
      <tbody class="last">
        ${
          last === undefined
            ? html`<tr>
                <td colspan="3">No row was judged.</td>
              </tr>`
            : rowLines(last, lists)
        }
      </tbody>
    </table>
    ${closing(report)}${sourcesAndNotes(report, lists)}`;
}

/**
 * Few cells and few runs of text, as each is laid out, tagged and written for every row. Heads of rows are plain cells:
 * thousands of them tied to every cell of a tagged table make a document many times as large.
 */
function rowLines(row: ReportRow, { sources, notes }: Lists): Part {
  const computed = row.computed.join('; ');
  const deciding = row.findings.filter(({ severity }) => severity !== 'note');
  const noted = [...new Set(row.findings.filter(isNote).map((note) => `n${notes.of(note)}`))].join(', ');
  const more = [
    ...(computed === '' ? [] : [`Computed: ${computed}.`]),
    ...(noted === '' ? [] : [`Notes: ${noted}.`]),
    ...(row.findings.length === 0 ? ['No finding.'] : []),
  ].join(' ');
  return html`<tr class="band">
      <td colspan="2">
        ${typed(row.id)} <span class="said">${typed(row.said.join('; '))}</span>${
          more === '' ? null : html`<br /><span class="more">${more}</span>`
        }
      </td>
      <td class="mark ${row.decision}">${decisionWords[row.decision]}</td>
    </tr>
    ${deciding.map((finding) => findingLine(row, finding, sources))}`;
}

function isNote({ severity }: Finding): boolean {
  return severity === 'note';
}

function findingLine(row: ReportRow, finding: Finding, sources: NumberedList): Markup {
  const accepted = acceptanceIn(row, finding);
  const { severity, rule, message, value, limit, unit = '' } = finding;
  const number = (of: number): string => `${showNumber(of, 6)} ${unit}`.trim();
  const compared = [
    ...(value === undefined ? [] : [number(value)]),
    ...(limit === undefined ? [] : [`limit ${number(limit)}`]),
  ];
  return html`<tr>
    <td><b>${severityWords[severity]}</b><br />${rule}</td>
    <td>
      ${typed(message)}
      [${sources.of(finding)}]${
        accepted === null
          ? null
          : html`<p class="accepted">
              Accepted by ${typed(accepted.person)}, ${spoken(accepted.at)}: ${typed(accepted.reason)}
            </p>`
      }
    </td>
    <td>${compared.map((text, at) => html`${at === 0 ? null : html`<br />`}${text}`)}</td>
  </tr>`;
}

function closing({ heading, rows }: Report): Markup {
  const { one, many } = subjectWords[heading.subject];
  return html`<div class="closing">
    <p class="end"><span>End of findings, ${count(rows.length, one, many)}.</span></p>
    <div class="sign">
      ${['Judged by', 'Checked by another person', 'Received by'].map(
        (who) =>
          html`<div>
            <b>${who}</b><i>name</i><i>signature</i>
            <div class="two"><i>date</i><i>time</i></div>
          </div>`,
      )}
    </div>
  </div>`;
}

function sourcesAndNotes(report: Report, { sources, notes }: Lists): Markup {
  const assumed = new Map<string, string[]>();
  for (const { id, assumptions } of report.rows)
    for (const text of assumptions) assumed.set(text, [...(assumed.get(text) ?? []), id]);
  const assumptions = [...assumed].map(
    ([text, ids]): Part => html`${typed(text)} <span class="small">(${idsText(ids)})</span>`,
  );
  const unreadable = report.unreadable.map(({ row, message, value }): Part => {
    const shown = value === undefined ? '' : `, given as “${String(value)}”`;
    return html`Row ${row ?? ''}: ${typed(`${message}${shown}`)}`;
  });
  const { heading } = report;
  const { many } = subjectWords[heading.subject];
  const noted = notes.lines.map((line, at): Part => html`<b>n${at + 1}</b> ${typed(line)}`);
  return html`${noted.length === 0 ? null : list('Notes: they decide nothing', noted, '')}
    <h2>Sources</h2>
    <ol class="sources">
      ${sources.lines.map((line) => html`<li>${typed(line)}</li>`)}
    </ol>
    ${unreadable.length === 0 ? null : list('Rows that cannot be read, and were not judged', unreadable, '')}${list('Assumptions', assumptions, 'None: nothing was assumed beyond what the rows say.')}${list('How it was judged', [...howJudged, ...report.notes], '')}${
      report.unknownColumns.length === 0 ? null : list('Columns no rule reads', [report.unknownColumns.join(', ')], '')
    }
    <p class="end">
      <span>End of report, ${count(report.rows.length, subjectWords[heading.subject].one, many)}.</span>
    </p>`;
}

function idsText(ids: readonly string[]): string {
  const shown = ids.slice(0, idsMost).join(', ');
  return ids.length > idsMost ? `${shown} and ${ids.length - idsMost} more` : shown;
}

function count(amount: number, one: string, many: string): string {
  return `${amount} ${amount === 1 ? one : many}`;
}
