import { describe, expect, test } from 'vitest';
import type { BagResult } from '../../shared-types/bag.ts';
import { cssString, html, Markup, plainText, shortened } from '../../renderer/features/manifest/html.ts';
import { isoWithOffset } from '../../renderer/features/manifest/isoWithOffset.ts';
import { manifestDocument } from '../../renderer/features/manifest/manifestDocument.ts';
import { manifestOf } from '../../renderer/features/manifest/manifestOf.ts';
import { spoken } from '../../renderer/features/manifest/pageFurniture.ts';
import { hostileTexts } from './hostileTexts.ts';
import { answer, request, sheet, textOf } from './manifestPlan.ts';

describe('what the manifest says', () => {
  test('every line states a value that can be read off the item, never that it was checked', () => {
    const states = sheet().rows.flatMap(({ lines }) => lines.map(({ id, state }) => `${id}: ${state}`));
    expect(states).toEqual([
      'T: on 33.5 lbf·ft for 1; 3/8 in square',
      'T2: on 44 N·m for 4; 3/8 in square',
      'S: 9/16 in 6-point, 2.1 in (53.3 mm) long, 3/8 in square',
      'X: joint, 2 in (51 mm) long, 3/8 in square',
      'R: 3/8 in square',
      'C: 2 whole',
      'W: one unused, to be used up',
    ]);
    expect(states.filter((state) => /\b(?:check|checked|ok|good)\b/i.test(state))).toEqual([]);
  });

  test('pieces and masses add up, bag by bag and over all', () => {
    const { rows, pieceCount, lineCount, contentsMass, wholeMass } = sheet();
    expect(lineCount).toBe(7);
    expect(pieceCount).toBe(8);
    expect(rows.map(({ pieceCount: pieces, contentsKg }) => [pieces, contentsKg])).toEqual([[8, '5.104']]);
    expect(contentsMass).toBe('5.104 kg (11.25 lb)');
    expect(wholeMass).toBe('5.604 kg (12.35 lb)');
  });

  test('running torque stands apart and as a sum with its parts', () => {
    const [added, , , within] = sheet().steps;
    expect(added?.torque).toEqual([
      'callout 30–35 lbf·ft (40.7–47.4 N·m)',
      'running 0.8–1.2 lbf·ft (1.09–1.62 N·m), to be added',
      'callout + running, on the wrench 31.2–35.8 lbf·ft (42.4–48.5 N·m)',
    ]);
    expect(within?.torque[1]).toMatch(/^of it running 0\.8–6\.7 lbf·ft/);
    expect(within?.torque[2]).toMatch(/^left for seating 23\.3–34\.2 lbf·ft/);
  });

  test('a setting is in the tool’s unit, the callout’s beside it where that is another', () => {
    const [first, loosening, byHand, other] = sheet().steps;
    expect(first?.setting).toMatchObject({ text: '33.5 lbf·ft', beside: '(45.4 N·m)' });
    expect(first?.setting?.applied).toBe('applies 32.16–34.84 lbf·ft at ± 4 % of reading');
    expect(other?.setting).toMatchObject({ text: '44 N·m', beside: '(32.45 lbf·ft)' });
    expect(loosening).toMatchObject({ setting: null, torque: ['must bear 42 lbf·ft (57 N·m)'] });
    expect(byHand?.byHand).toBe('by hand, nothing to turn');
  });

  test('each callout names its source, or says that there is none', () => {
    const { steps } = sheet();
    expect(steps.map(({ source }) => source)).toEqual([
      'Drawing 4 (invented)',
      null,
      null,
      'The plan names no source for this callout.',
    ]);
  });

  test('open points, read-past fields and the plan’s own notes are all there', () => {
    const { unchecked, problems, notes, assumptions } = sheet();
    expect(unchecked).toEqual([
      'Swing not checked, no free angle is given; step 1',
      'Fields of the plan that no rule knows, read past: catalog.sockets[0].colour',
    ]);
    expect(problems).toEqual(['Left behind: 2 × C Sealing cap at foot, nobody brings it home; last moved, step 3']);
    expect(notes).toEqual([{ text: 'Invented.', ids: ['S', 'X', 'R', 'T', 'T2'] }]);
    expect(assumptions.some((text) => text.includes('ISO 14253-1'))).toBe(true);
  });

  test('least is said only of a bag that was proved least', () => {
    expect(sheet().proof[0]).toBe('Proved least mass: 5.704 kg (12.58 lb), and nothing below it does all steps.');
    const stopped: BagResult = {
      ...answer,
      status: 'stopped',
      objective: { minimised: 'mass', value: 5.704, unit: 'kg', bound: 5.1, gap: 0.10589 },
    };
    const [proof = ''] = sheet({ result: stopped }).proof;
    expect(proof).toBe(
      'Not proved least: stopped by its time limit. Best found 5.704 kg (12.58 lb); no bag is below 5.100 kg (11.24 lb), bound 11 %.',
    );
  });

  test('an infeasible plan prints no list: which step, what is lacking, what comes closest', async () => {
    const result: BagResult = {
      ...answer,
      status: 'infeasible',
      objective: null,
      outings: [],
      infeasible: [
        {
          step: 'final',
          reason: 'No stack reaches',
          closest: [{ stack: ['T', 'S'], fails: [{ check: 'reach', have: '2.1 in', need: '6.44 in' }] }],
        },
      ],
    };
    const made = manifestOf(request({}, { result }));
    expect(made).toMatchObject({
      why: expect.stringContaining('No bag'),
      faults: [{ what: 'Step 1, Torque B1–B12', reason: 'No stack reaches' }],
    });
    const text = textOf((await manifestDocument(request({}, { result }))).html);
    expect(text).toContain('reach: has 2.1 in, needs 6.44 in');
    expect(text).not.toContain('Packed by');
    expect(text).toContain('End of sheet, no manifest.');
  });

  test('an outing with a bag keeps its list where the plan as a whole cannot be done, and claims no proof', () => {
    const made = manifestOf(request({}, { result: { ...answer, status: 'infeasible', objective: null } }));
    expect(made).toMatchObject({ proof: ['The plan cannot be done as a whole: this outing only.'] });
    expect(made).toMatchObject({ rows: sheet().rows });
  });

  test('what is carried to a step stands after its own watch-outs, the same words once', async () => {
    const carried = new Map([['final', ['The stud seizes.', 'Wet.', 'Wet.']]]);
    const { steps } = sheet({ carried });
    const own = sheet().steps.find(({ id }) => id === 'final')?.watchOuts ?? [];
    expect(steps.find(({ id }) => id === 'final')?.watchOuts).toEqual([...own, 'The stud seizes.', 'Wet.']);
    expect(steps.filter(({ watchOuts }) => watchOuts.includes('Wet.'))).toHaveLength(1);
    expect(textOf((await manifestDocument(request({}, { carried }))).html)).toContain('Watch out: The stud seizes.');
  });

  test('a stopped answer without this outing says that there is none', () => {
    const made = manifestOf(request({}, { result: { ...answer, status: 'stopped', outings: [] } }));
    expect(made).toMatchObject({ why: 'Planning was stopped before it found a bag for this outing.' });
  });
});

describe('texts made safe', () => {
  test('only markup made by the template stays markup', () => {
    expect(html`<p title="${'"><b>'}">${'<i>'}${[html`<b>${1}</b>`, '&']}${null}</p>`.text).toBe(
      '<p title="&quot;&gt;&lt;b&gt;">&lt;i&gt;<b>1</b>&amp;</p>',
    );
    expect(new Markup('<b>').text).toBe('<b>');
  });

  test('signs that turn the reading direction are named, not obeyed', () => {
    expect(plainText('S-18\u202eD81')).toBe('S-18[U+202E]D81');
    expect(plainText('a\u0000b\ud800c')).toBe('a\ufffdb\ufffdc');
    expect(plainText('מפתח 14 🛠️')).toBe('מפתח 14 🛠️');
  });

  test('a CSS string can be left by no text', () => {
    for (const text of hostileTexts) {
      const sheetOf = new CSSStyleSheet();
      sheetOf.replaceSync(`p::before{content:${cssString(text)};color:red}`);
      expect(sheetOf.cssRules).toHaveLength(1);
      const { style } = sheetOf.cssRules[0] as CSSStyleRule;
      expect(style.color).toBe('red');
      expect(cssString(text)).not.toContain('</');
    }
  });

  test('a long name is cut with a sign that it was', () => {
    expect(shortened('short', 30)).toBe('short');
    expect(shortened('x'.repeat(200), 34)).toMatch(/^x{30,60}…$/);
  });

  test('times carry their offset from UTC', () => {
    expect(spoken('2026-11-25T10:42:31-03:30')).toBe('2026-11-25 10:42 UTC-03:30');
    expect(spoken('2026-11-25T10:42:31Z')).toBe('2026-11-25 10:42 UTC+00:00');
    const at = new Date(2026, 6, 4, 5, 6, 7);
    const iso = isoWithOffset(at);
    expect(iso).toMatch(/^2026-07-04T05:06:07[+-]\d\d:\d\d$/);
    expect(new Date(iso).getTime()).toBe(at.getTime());
  });
});
