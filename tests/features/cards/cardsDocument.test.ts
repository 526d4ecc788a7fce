import { describe, expect, test } from 'vitest';
import { cardsAsked, cardsDocument } from '../../../renderer/features/cards/cardsDocument.ts';
import { planFrom } from '../../../renderer/engine/plan/readPlan.ts';
import { cardPlan, cardSource, heldSource } from '../../engine/cards/cardTask.ts';

const held = (depth: string) => ({ ...heldSource(depth), fileName: 'p.json' });

async function pages(depth: string) {
  const { html } = await cardsDocument({
    ...held(depth),
    ...{ paper: 'A4' as const, dataTime: '2026-01-02T10:42:00+00:00', appVersion: '0', person: '', fonts: [] },
  });
  return html.split('<section class="card">').slice(1);
}

describe('what holds against turning', () => {
  test('is drawn beside the stack that turns, each with its own parts and lengths', async () => {
    const [first = ''] = await pages('1 in');
    expect(first.match(/<svg\s+class="stack"/g)).toHaveLength(2);
    expect(first).toMatch(/class="pair( beside)?"/);
    // The ratchet stands in the drawing's list of parts, the depth of its hole in the drawing.
    expect(first).toMatch(/held against turning:\s+<bdi>1 R Ratchet, 2 S/);
    expect(first).toContain('needed 2 in');
    expect(first).toContain('needed 1 in');
  });

  test('stands under it where its hole is too deep for half a page', async () => {
    const [first = ''] = await pages('70 in');
    expect(first.match(/<svg\s+class="stack"/g)).toHaveLength(2);
    expect(first).toContain('class="pair"');
    expect(first).toMatch(/Under it,\s+held against turning/);
    expect(first).toContain('needed 70 in');
    // At half the width it would be drawn at less than a third of the size.
    const [other = ''] = await pages('1 in');
    expect(other).toContain('class="pair beside"');
  });

  test.each(['1 in', '70 in'])('leaves its card lines that fit the page, %s deep', (depth) => {
    const cards = cardsAsked(held(depth));
    const own = cards.flatMap(({ parts }) => parts.flatMap(({ step, lines }) => (step.id === 'final' ? lines : [])));
    const whole = cards.flatMap(({ parts }) => parts).find(({ step }) => step.id === 'final')?.step.lines;
    expect(own).toEqual(whole);
    expect(cards[0]?.lineCount).toBeGreaterThanOrEqual(1);
  });
});

describe('a step that is tightened', () => {
  test('has its drawing, seven lines, its boxes and its notes on one card', () => {
    const { source } = cardPlan({ deep: false });
    const plan = planFrom({
      ...source,
      catalog: { ...source.catalog, fasteners: source.catalog.fasteners.map(({ locking: _locking, ...own }) => own) },
      steps: source.steps.map(
        ({ running: _running, runningIncluded: _included, cautions: _cautions, watchOuts: _watchOuts, ...own }) =>
          own.id === 'final' ? { ...own, gear: [{ id: 'C', quantity: 2 }] } : own,
      ),
    });
    const asked = { ...cardSource(), plan, facts: new Map(), fileName: 'p.json' };
    const own = cardsAsked(asked).filter(({ parts }) => parts.some(({ step }) => step.id === 'final'));
    expect(
      own.map(({ lineCount, parts }) => [lineCount, parts[0]?.lines.length === parts[0]?.step.lines.length]),
    ).toEqual([[7, true]]);
  });

  test('has its cautions, its running torque with its boxes and where its figures are from on one card, beside the drawing', async () => {
    const asked = { ...cardSource({ deep: false }), facts: new Map(), fileName: 'p.json' };
    const own = cardsAsked(asked).filter(({ parts }) => parts.some(({ step }) => step.id === 'final'));
    expect(own).toHaveLength(1);
    expect(own[0]?.parts[0]?.step.notices).toHaveLength(3);
    expect(own[0]?.boxes?.columns.map(({ name }) => name)).toContain('Running');
    const { html } = await cardsDocument({
      ...asked,
      ...{ paper: 'A4' as const, dataTime: '2026-01-02T10:42:00+00:00', appVersion: '0', person: '', fonts: [] },
    });
    const [card = ''] = html.split('<section class="card">').slice(1);
    const places = ['class="notices"', 'class="scene"', 'small notes', '<table class="do"', 'class="boxes'].map(
      (part) => card.indexOf(part),
    );
    expect(places.every((at) => at > 0)).toBe(true);
    expect(places).toEqual(places.toSorted((a, b) => a - b));
  });
});

describe('P3, P4: what is printed of cards', () => {
  test.each([{}, { count: 60, mirrored: true }, { passes: [], deep: false }, { order: ['1', '3'] }])(
    'has every line once, on each card who has done it, and at the end how many cards and lines there are: %o',
    async (wanted) => {
      const request = { ...cardSource(wanted), fileName: 'p.json' };
      const cards = cardsAsked(request);
      const { html } = await cardsDocument({
        ...request,
        ...{ paper: 'A4' as const, dataTime: '2026-01-02T10:42:00+00:00', appVersion: '0', person: '', fonts: [] },
      });
      const body = html.slice(html.indexOf('<body>'));
      const lines = cards.flatMap(({ parts }) => parts.flatMap((part) => part.lines));
      expect(body.match(/<tr class="line /g)).toHaveLength(lines.length);
      expect(cards.reduce((sum, { lineCount }) => sum + lineCount, 0)).toBe(lines.length);
      expect(body.match(/<p class="done">/g)).toHaveLength(cards.length);
      expect(body).toContain(`End of cards: ${cards.length} cards, ${lines.length} lines.`);
      expect(body.indexOf('End of cards')).toBeGreaterThan(body.lastIndexOf('<p class="done">'));
    },
  );
});
