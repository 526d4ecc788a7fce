import { html, type Markup } from './html.ts';
import type { NoManifest } from './manifest.ts';
import { caution, heading, list, typed } from './manifestBody.ts';

/** The sheet for an outing without a bag: what is at fault and by how much, so that it can be mended. */
export function noManifestBody(sheet: NoManifest): Markup {
  return html`<p class="small">No manifest</p>
    ${heading(sheet.name, sheet.outing)}
    <p class="lead"><b>${sheet.why}</b> There is nothing to pack from this sheet.</p>
    <p class="small">Task ${typed(sheet.task)}${sheet.site === null ? null : html`; site: ${typed(sheet.site)}`}</p>
    ${caution()}
    <h2>At fault</h2>
    ${
      sheet.faults.length === 0
        ? html`<p>No single step or outing was found at fault.</p>`
        : sheet.faults.map(
            ({ what, reason, closest }) =>
              html`<div class="fault">
                <p class="name">${typed(what)}</p>
                <p>${reason}</p>
                ${closest.map(
                  (fit) =>
                    html`<p class="small">
                      Closest fit <span class="code">${typed(fit.stack.join(' + '))}</span>:
                      ${fit.fails.map(({ check, have, need }, index) => `${index === 0 ? '' : '; '}${check}: has ${have}, needs ${need}`)}
                    </p>`,
                )}
              </div> `,
          )
    }
    ${list('Open problems of the plan', sheet.problems, 'None found.')}${list('Not checked', sheet.unchecked, 'Every rule had what it needs.')}
    <p class="end">End of sheet, no manifest.</p> `;
}
