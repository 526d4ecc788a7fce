/** What labels are made of before they are printed: how much there is to lay out, every label once, and the caution. */
import { describe, expect, it, test } from 'vitest';
import { cautionLead, cautionShort } from '../../../renderer/engine/caution.ts';
import { groupedTag, tagText } from '../../../renderer/engine/tag/index.ts';
import { headLabels } from '../../../renderer/features/labels/headLabels.ts';
import { leastSize, usualSizes } from '../../../renderer/features/labels/labelForm.ts';
import type { LabelForm } from '../../../renderer/features/labels/labelForm.ts';
import { labelsDocument } from '../../../renderer/features/labels/labelsDocument.ts';
import type { Label } from '../../../renderer/features/labels/labels.ts';
import { hostileTexts } from '../../browser/hostileTexts.ts';

const forms = (['both', 'bars', 'square'] as const).flatMap((symbols) =>
  ([203, 300] as const).flatMap((dpi) =>
    (['sheet', 'single'] as const).map((on): LabelForm => ({ symbols, dpi, on, ...usualSizes[symbols] })),
  ),
);
const named = forms.map((form) => [`${form.symbols}, ${form.dpi} dots to the inch, ${form.on}`, form] as const);

function labelsOf(count: number, nameOf = (at: number): string => `Socket ${at}`): Label[] {
  return Array.from({ length: count }, (_, at) => ({
    text: tagText({ kind: 'item', tag: 1 + at * 977, piece: 1 + (at % 9) }),
    ...{ code: `S-${at}`, name: nameOf(at), said: `piece ${1 + (at % 9)} of 9` },
  }));
}

async function bodyOf(labels: readonly Label[], form: LabelForm): Promise<string> {
  const { html } = await labelsDocument({
    ...{ labels, form, paper: 'A4', source: 'Shelf Crew', revision: '—', dataTime: '2026-11-25T10:42:00+01:00' },
    ...{ fonts: [], appVersion: '0.1.0', journal: { seq: 412, hash: `7f3a91c2${'0'.repeat(56)}` } },
  });
  return html.slice(html.indexOf('<body>'));
}

const count = (text: string, of: RegExp): number => (text.match(of) ?? []).length;

describe.each(named)('100 labels: %s', (_name, form) => {
  // What E10 costs, without a clock: elements to lay out and to tag, and rectangles to draw. Both were a third more and twice as many.
  it('are few elements and few rectangles each, and have each its digits once, in order (P3)', async () => {
    const labels = labelsOf(100);
    const body = await bodyOf(labels, form);
    expect(count(body, /<[a-z]/g) / 100).toBeLessThanOrEqual(form.on === 'sheet' ? 5.5 : 7.5);
    const squares = form.symbols === 'bars' ? 0 : 90;
    const bars = form.symbols === 'square' ? 0 : 8 * 3 + 4;
    expect(count(body, /M\d/g) / 100).toBeLessThanOrEqual(squares + bars + 1);
    expect(body.match(/\b[12] \d{6} \d{3} \d{2}\b/g)).toEqual(labels.map(({ text }) => groupedTag(text)));
  });

  it('keep texts of marks texts, and names from right to left apart (P9)', async () => {
    const names = [...hostileTexts, 'مفتاح ربط', 'x'.repeat(10_000), ''];
    const body = await bodyOf(
      labelsOf(names.length, (at) => names[at] ?? ''),
      form,
    );
    expect(body).not.toMatch(/<(?:script|img|iframe|svg [^r]*on)/i);
    expect(body).toContain('<bdi>مفتاح ربط</bdi>');
    expect(body).not.toContain('x'.repeat(500));
  });
});

test('single labels go behind labels that carry the caution and what they are of, every word of it on a line that fits', () => {
  const journal = { seq: 412, hash: `7f3a91c2${'0'.repeat(56)}` };
  for (const form of forms)
    for (const size of [usualSizes[form.symbols], leastSize(form)]) {
      const heads = headLabels({ count: 3, source: 'Shelf Crew', hash: '0285 bff3', journal }, { ...form, ...size });
      const text = heads.flat().join(' ');
      expect(text).toBe(
        `${cautionLead} ${cautionShort} 3 labels of Shelf Crew, for ${form.dpi} dots to the inch. Content 0285\u00a0bff3, journal 412, 7f3a\u00a091c2.`,
      );
      for (const lines of heads) expect(lines.length * 3.3).toBeLessThanOrEqual(size.heightMm - 1.6);
      expect(heads.length).toBeLessThanOrEqual(form.symbols === 'both' && size === usualSizes.both ? 1 : 3);
    }
});
