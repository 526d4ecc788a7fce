import { cautionLead, cautionText } from '../../engine/caution.ts';
import { html, type Markup, type Part } from './html.ts';
import type { Manifest, ManifestBag, ManifestLine, ManifestStep, StackLine } from './manifest.ts';

/** Lines between two visible breaks: a longer run is lost count of. */
const chunkLines = 10;
const addedByHand = 3;
const columns = 8;

export function caution(): Markup {
  return html`<p class="caution"><b>${cautionLead}</b> ${cautionText}</p>`;
}

/** Names that somebody typed keep their own reading direction and turn nothing around them. */
export function typed(text: string): Markup {
  return html`<bdi>${text}</bdi>`;
}

/** Task and outing on two lines, read as one heading. */
export function heading(name: string, outing: string): Markup {
  return html`<h1>${typed(name)}<br /><span class="outing">${typed(outing)}</span></h1> `;
}

export function manifestHead(manifest: Manifest, person: string): Markup {
  const { name, outing, site, task, rows, pieceCount, contentsMass, wholeMass, stepCount, proof } = manifest;
  return html`<p class="small">Manifest</p>
    ${heading(name, outing)}
    <p class="lead">
      ${count(rows.length, 'bag')},
      <b>${count(pieceCount, 'piece')}, ${contentsMass}</b
      >${wholeMass === null ? null : `, ${wholeMass} with the bags themselves`}, for ${count(stepCount, 'step')}.
    </p>
    ${proof.map((text) => html`<p>${text}</p>`)}
    <p class="small">
      Task
      ${typed(task)}${site === null ? null : html`; site: ${typed(site)}`}${person === '' ? null : html`; prepared by ${typed(person)}`}
    </p>
    ${caution()}`;
}

function count(amount: number, one: string): string {
  return `${amount} ${amount === 1 ? one : `${one}s`}`;
}

export function manifestTable(manifest: Manifest): Markup {
  const closing = manifest.rows.findLast(({ lines }) => lines.length > 0);
  const bodies = manifest.rows.flatMap((bag) => bagBodies(bag, bag === closing ? bag.lines.slice(0, -1) : bag.lines));
  return html`<table>
    <colgroup>
      <col style="width:39.5mm" />
      <col />
      <col style="width:38mm" />
      <col style="width:18mm" />
      <col style="width:13mm" />
      <col style="width:16mm" />
      <col style="width:11mm" />
      <col style="width:11mm" />
    </colgroup>
    <thead>
      <tr>
        <th scope="col">Item</th>
        <th scope="col">What</th>
        <th scope="col">Packed when</th>
        <th scope="col">Needed at step</th>
        <th scope="col" class="num">Pieces</th>
        <th scope="col" class="num">kg</th>
        <th scope="col" class="mid">Out</th>
        <th scope="col" class="mid">Back</th>
      </tr>
    </thead>
    ${bodies.map(
      (rows) =>
        html`<tbody>
          ${rows}
        </tbody> `,
    )}${closingBody(manifest, closing)}
  </table> `;
}

/** One body a chunk, each under a row that says where it belongs. */
function bagBodies(bag: ManifestBag, lines: readonly ManifestLine[]): Markup[][] {
  const bodies: Markup[][] = [];
  for (let from = 0; from < lines.length;) {
    const pocket = lines[from]?.pocket;
    const other = lines.findIndex((line, at) => at > from && line.pocket !== pocket);
    const chunk = lines.slice(from, Math.min(from + chunkLines, other === -1 ? lines.length : other));
    bodies.push([...headRows(bag, from, chunk.length), ...chunk.map(lineRow)]);
    from += chunk.length;
  }
  return bodies;
}

/** What stands over some lines: the bag over its first, the pocket or the stretch of lines over the others. */
function headRows(bag: ManifestBag, from: number, lines: number): Markup[] {
  const hasPockets = bag.lines[from]?.pocket !== undefined;
  return [...(from === 0 ? [bagRow(bag)] : []), ...(from > 0 || hasPockets ? [chunkRow(bag, from, lines)] : [])];
}

function bagRow(bag: ManifestBag): Markup {
  return html`<tr class="band">
    <th scope="rowgroup" colspan="4">
      ${typed(bag.name)}${bag.own === null ? null : html`<span class="own">; ${bag.own}</span>`}
    </th>
    <td class="num">${bag.pieceCount}</td>
    <td class="num">${bag.contentsKg}</td>
    <td></td>
    <td></td>
  </tr> `;
}

function chunkRow(bag: ManifestBag, from: number, lines: number): Markup {
  const pocket = bag.lines[from]?.pocket;
  const own = bag.lines.filter((line) => line.pocket === pocket);
  const first = from - (pocket === undefined ? 0 : bag.lines.findIndex((line) => line.pocket === pocket));
  const stretch = lines === 1 ? `line ${first + 1}` : `lines ${first + 1} to ${first + lines}`;
  return html`<tr class="part">
    <th scope="rowgroup" colspan="${columns}">
      ${typed(bag.name)}${pocket === undefined ? null : html`, pocket ${typed(pocket)}`}${
        pocket !== undefined && lines === own.length ? null : `, ${stretch} of ${own.length}`
      }
    </th>
  </tr> `;
}

function lineRow(line: ManifestLine): Markup {
  return html`<tr class="line">
    <th scope="row" class="code">${typed(line.id)}</th>
    <td>
      ${typed(line.what)}${line.which === null ? null : html`<br /><span class="small"><bdi>${daysWhole(line.which)}</bdi></span>`}${
        line.apart === undefined ? null : html`<br /><span class="small">${typed(line.apart)}</span>`
      }
    </td>
    <td>${line.state}</td>
    <td>${line.needed}</td>
    <td class="num">${line.pieces}</td>
    <td class="num">${line.kg}</td>
    <td class="mid"><span class="box"></span></td>
    <td class="mid"><span class="box"></span></td>
  </tr> `;
}

/**
 * The last line, the empty lines, the totals and the signatures are one body, which no page divides: beside the table,
 * the signatures would part from their line wherever the page ends between the two.
 */
function closingBody(manifest: Manifest, bag: ManifestBag | undefined): Markup {
  const { pieceCount, lineCount, contentsMass } = manifest;
  const last = bag?.lines.at(-1);
  const before = (bag?.lines.length ?? 0) - 1;
  const kept = bag && last ? [...headRows(bag, before, 1), lineRow(last)] : [];
  const empty = Array.from(
    { length: addedByHand },
    () =>
      html`<tr class="added">
        <td></td>
        <td class="small" colspan="3">added by hand:</td>
        <td></td>
        <td></td>
        <td class="mid"><span class="box"></span></td>
        <td class="mid"><span class="box"></span></td>
      </tr> `,
  );
  const nothing =
    lineCount > 0
      ? null
      : html`<tr class="line">
          <th scope="row">none</th>
          <td colspan="7">Nothing to pack: no step of this outing needs a piece.</td>
        </tr> `;
  return html`<tbody class="last">
    ${nothing}${kept}${empty}
    <tr class="total">
      <th scope="row" colspan="4">All bags, ${lineCount} ${lineCount === 1 ? 'line' : 'lines'}; ${contentsMass}</th>
      <td class="num">${pieceCount}</td>
      <td colspan="3"></td>
    </tr>
    <tr class="close">
      <td colspan="${columns}">${signatures(manifest)}</td>
    </tr>
  </tbody> `;
}

function signatures(manifest: Manifest): Markup {
  const people = ['Packed by', 'Counted again by another person', 'Received back by'];
  return html`<p class="end">
      <span>End of list, ${count(manifest.pieceCount, 'piece')} in ${count(manifest.lineCount, 'line')}.</span
      ><span>Counted out <span class="write"></span> Counted back <span class="write"></span></span>
    </p>
    <div class="sign">
      ${people.map(
        (who) =>
          html`<div>
            <b>${who}</b><i>name</i><i>signature</i>
            <div class="two"><i>date</i><i>time</i></div>
          </div>`,
      )}
    </div> `;
}

export function stepTable(manifest: Manifest): Markup {
  if (manifest.steps.length === 0)
    return html`<h2>Steps and settings</h2>
      <p>This outing has no steps.</p> `;
  return html`<h2>Steps and settings</h2>
    <table class="steps">
      <colgroup>
        <col style="width:9mm" />
        <col style="width:42mm" />
        <col />
        <col style="width:40mm" />
        <col style="width:46mm" />
      </colgroup>
      <thead>
        <tr>
          <th scope="col" class="num">No</th>
          <th scope="col">Step, by whom</th>
          <th scope="col">Stack, tool to head</th>
          <th scope="col">Set the tool to</th>
          <th scope="col">Torque and its source</th>
        </tr>
      </thead>
      <tbody>
        ${manifest.steps.map(stepRow)}
      </tbody>
    </table> `;
}

function stepRow(step: ManifestStep): Markup {
  const { setting } = step;
  return html`<tr>
    <th scope="row" class="num">${step.number}</th>
    <td>
      ${step.cautions.map(({ word, text }) => html`<p class="watch">${word}: ${typed(text)}</p>`)}${step.watchOuts.map((text) => html`<p class="watch">Watch out: ${typed(text)}</p>`)}<span
        class="name"
        >${typed(step.name)}</span
      ><br /><span class="small">${typed(step.who)}<br /><span class="code">${typed(step.id)}</span></span>
    </td>
    <td>
      ${stackList(step.stack)}${
        step.hold === null
          ? null
          : html`<p class="small"><b>held against turning by</b></p>
              ${stackList(step.hold)}`
      }${step.byHand}${step.gear.map((text) => html`<p class="small">${typed(text)}</p>`)}
    </td>
    <td>
      ${setting === null ? 'no setting' : html`<span class="set">${setting.text}</span> ${setting.beside}<br /><span class="small">${setting.applied}</span>`}
    </td>
    <td>
      ${step.torque.map((text) => html`<p>${unbroken(text)}</p>`)}${step.source === null ? null : html`<p class="small">Source: ${typed(step.source)}</p>`}
    </td>
  </tr> `;
}

/** The other unit's figures stay together: a band torn over two lines is misread. */
export function unbroken(text: string): Part {
  return text
    .split(/(\([^)]*\))/)
    .map((part) => (part.startsWith('(') ? html`<span class="whole">${part}</span>` : part));
}

/** A day is not torn at its hyphens. */
function daysWhole(text: string): Part {
  return text
    .split(/(\d{4}-\d\d-\d\d)/)
    .map((part, at) => (at % 2 === 1 ? html`<span class="whole">${part}</span>` : part));
}

function stackList(stack: StackLine[]): Part {
  return stack.map(
    ({ id, name }) => html`<p><span class="code">${typed(id)}</span>${name === id ? null : html` ${typed(name)}`}</p>`,
  );
}

export function list(about: string, texts: Part[], none: string): Markup {
  return html`<h2>${about}</h2>
    ${
      texts.length === 0
        ? html`<p>${none}</p>`
        : html`<ul>
            ${texts.map((text) => html`<li>${text}</li>`)}
          </ul>`
    } `;
}

export function annex(manifest: Manifest): Markup {
  const notes = manifest.notes.map(
    ({ ids, text }) =>
      html`${typed(text)}
        <span class="small"
          >(${ids.map((id, index) => html`${index === 0 ? '' : ', '}<span class="code">${typed(id)}</span>`)})</span
        >`,
  );
  return html`${list('Open problems of the plan', manifest.problems, 'None found.')}${list('Not checked', manifest.unchecked, 'Every rule had what it needs.')}${list('Assumptions', manifest.assumptions, '')}${list('Where the plan’s figures come from', notes, 'The plan says nothing about its figures.')}
    <p class="end">
      End of manifest, ${count(manifest.pieceCount, 'piece')} in ${count(manifest.lineCount, 'line')}.
    </p> `;
}
