import type { CardPart } from '../../engine/cards/index.ts';
import { html, type Markup } from '../manifest/html.ts';
import { typed } from '../manifest/manifestBody.ts';
import type { DrawnScene } from './cardStacks.ts';
import { stackDrawing, turnDrawing } from './drawings.ts';

/** The drawings of a card with their words: which parts they show, and which way to turn. */
export function sceneMarkup(
  scene: DrawnScene,
  { turned, pattern, notes }: { turned: CardPart | undefined; pattern: Markup | null; notes: Markup | null },
): Markup {
  const { arrangement, turning, hold } = scene;
  const one = stackDrawing(turning.layout, turning.spoken);
  const drawings =
    hold === null
      ? one
      : html`<div class="${arrangement === 'beside' ? 'pair beside' : 'pair'}">
          <div>${one}</div>
          <div>${stackDrawing(hold.layout, hold.spoken)}</div>
        </div>`;
  const parts = html`<p class="small">
    Stack to scale in its hole, third angle:
    ${typed(turning.parts)}.${
      hold === null
        ? null
        : html` ${arrangement === 'beside' ? 'Beside it' : 'Under it'}, held against turning: ${typed(hold.parts)}.`
    }
  </p>`;
  if (arrangement !== 'side')
    return html`${drawings}
      <div class="caption">${parts}${turnRow(turned)}</div> `;
  return html`<div class="scene">
      <div>${drawings}</div>
      <div class="words">${turnRow(turned)}${pattern ?? parts}${notes}</div>
    </div>
    ${pattern === null ? null : html`<div class="caption">${parts}</div>`} `;
}

/** The words of a scene's drawings, as the room they take up is reckoned. */
export function sceneWords({ turning, hold }: DrawnScene): string {
  const held = hold === null ? '' : ` Beside it, held against turning: ${hold.parts}.`;
  return `Stack to scale in its hole, third angle: ${turning.parts}.${held}`;
}

/** Which way to turn, as the worker sees it, and why so. */
export function turnRow(part: CardPart | undefined): Markup | null {
  const turn = part?.step.turn ?? null;
  if (turn === null) return null;
  return html`<div class="way-row">
    ${turnDrawing(turn)}<span
      >Turn ${turn.turn}, as you see it. <span class="small">${turn.because.join(', ')}</span></span
    >
  </div> `;
}
