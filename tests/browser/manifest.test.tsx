import { userEvent } from 'vitest/browser';
import { describe, expect, test, vi } from 'vitest';
import type { BagResult } from '../../shared-types/bag.ts';
import type { DocumentToPrint, Host } from '../../shared-types/host.ts';
import { planFrom } from '../../renderer/engine/plan/readPlan.ts';
import { contentHash } from '../../renderer/features/manifest/contentHash.ts';
import { cssString, html, Markup, plainText, shortened } from '../../renderer/features/manifest/html.ts';
import { isoWithOffset } from '../../renderer/features/manifest/isoWithOffset.ts';
import type { Manifest } from '../../renderer/features/manifest/manifest.ts';
import { manifestDocument, type PrintRequest } from '../../renderer/features/manifest/manifestDocument.ts';
import { manifestOf } from '../../renderer/features/manifest/manifestOf.ts';
import { ManifestSheet } from '../../renderer/features/manifest/ManifestSheet.tsx';
import { spoken } from '../../renderer/features/manifest/pageFurniture.ts';
import { hostileTexts } from './hostileTexts.ts';
import { pdfOfPages } from './pdfOfPages.ts';
import { shown } from './shown.tsx';

interface Names {
  gear?: string;
  task?: string;
  outing?: string;
  note?: string;
  watchOut?: string;
  source?: string;
}

function planOf(names: Names = {}) {
  const {
    gear = 'Sealing cap',
    task = 'Azimuth drive change',
    outing = 'outing 1',
    note = 'Invented.',
    watchOut,
    source = 'Drawing 4 (invented)',
  } = names;
  const tool = { drive: '3/8 in', mass: '1 kg', onHand: 2, notes: note };
  return planFrom({
    task: { id: 'SR-01', name: task, site: 'Skua Rock' },
    catalog: {
      fasteners: [{ id: 'B', thread: '3/8-24 UNF-3A', head: { form: 'hex', acrossFlats: '9/16 in' } }],
      sockets: [
        {
          ...tool,
          id: 'S',
          name: 'Socket',
          opening: { form: 'hex6', size: '9/16 in' },
          length: '2.1 in',
          outsideDiameter: '0.8 in',
          ratedTorque: '75 lbf·ft',
        },
      ],
      extensions: [
        {
          ...tool,
          id: 'X',
          kind: 'universal',
          driveIn: '3/8 in',
          driveOut: '3/8 in',
          length: '2 in',
          outsideDiameter: '0.8 in',
          ratedTorque: '75 lbf·ft',
        },
      ],
      drivers: [{ ...tool, id: 'R', name: 'Ratchet', max: '75 lbf·ft' }],
      torqueTools: [
        {
          ...tool,
          id: 'T',
          name: 'Torque tool',
          min: '15 lbf·ft',
          max: '75 lbf·ft',
          increment: '0.5 lbf·ft',
          accuracyOfReading: 0.04,
          loosens: true,
        },
        {
          ...tool,
          id: 'T2',
          name: 'Torque tool in N·m',
          min: '10 N·m',
          max: '100 N·m',
          increment: '1 N·m',
          accuracyOfReading: 0.04,
        },
      ],
      carryGear: [
        { id: 'C', name: gear, mass: '46 g', onHand: 9 },
        { id: 'W', name: 'Wipe', mass: '12 g', onHand: 9, consumed: true },
      ],
      bags: [{ id: 'L', name: 'Lead’s bag', mass: '0.5 kg' }],
    },
    outings: [{ id: 'o1', name: outing, roles: ['Lead'], bags: ['L'] }],
    steps: [
      {
        id: 'final',
        name: 'Torque B1–B12',
        outing: 'o1',
        role: 'Lead',
        action: 'tighten',
        fastener: 'B',
        callout: { min: '30 lbf·ft', max: '35 lbf·ft' },
        calloutSource: source,
        running: { min: '0.8 lbf·ft', max: '1.2 lbf·ft' },
        runningIncluded: false,
        ...(watchOut === undefined ? {} : { watchOuts: [watchOut] }),
      },
      {
        id: 'release',
        name: 'Release',
        outing: 'o1',
        role: 'Lead',
        action: 'loosen',
        fastener: 'B',
        demand: '42 lbf·ft',
      },
      {
        id: 'use',
        name: 'Cap it',
        outing: 'o1',
        role: 'Lead',
        action: 'use',
        gear: [
          { id: 'C', quantity: 2 },
          { id: 'W', quantity: 1 },
        ],
      },
      {
        id: 'again',
        name: 'Torque again',
        outing: 'o1',
        role: 'Lead',
        action: 'tighten',
        fastener: 'B',
        callout: { min: '30 lbf·ft', max: '35 lbf·ft' },
        running: { min: '0.8 lbf·ft', max: '6.7 lbf·ft' },
      },
    ],
  });
}

const line = (id: string, quantity: number, because: string[]) => ({ id, quantity, bag: 'L', because });

const answer: BagResult = {
  status: 'optimal',
  objective: { minimised: 'mass', value: 5.704, unit: 'kg', bound: 5.704, gap: 0 },
  outings: [
    {
      id: 'o1',
      massKg: 5.604,
      items: [
        line('T', 1, ['final', 'release']),
        line('T2', 1, ['again']),
        line('S', 1, ['final', 'release', 'again']),
        line('X', 1, ['release']),
        line('R', 1, ['release']),
        line('C', 2, ['use']),
        line('W', 1, ['use']),
      ],
      steps: [
        { id: 'final', stack: ['T', 'S'], hold: null, setting: { value: 33.5, unit: 'lbf·ft' } },
        { id: 'release', stack: ['R', 'X', 'S'], hold: null, setting: null },
        { id: 'use', stack: [], hold: null, setting: null },
        { id: 'again', stack: ['T2', 'S'], hold: null, setting: { value: 44, unit: 'N·m' } },
      ],
    },
  ],
  singleLoss: false,
  unchecked: [{ rule: 'swingDeg', steps: ['final'] }],
  problems: [{ rule: 'left-behind', outing: 'o1', step: 'use', id: 'C', quantity: 2, place: 'foot' }],
  infeasible: [],
  ignoredFields: ['catalog.sockets[0].colour'],
};

const request = (names: Names = {}, change: Partial<PrintRequest> = {}): PrintRequest => ({
  plan: planOf(names),
  result: answer,
  outing: 'o1',
  units: 'both',
  fileName: 'plan.json',
  paper: 'A4',
  dataTime: '2026-11-25T10:42:00+01:00',
  appVersion: '0.1.0',
  person: 'I. Maro',
  fonts: [],
  ...change,
});

function sheet(change: Partial<PrintRequest> = {}): Manifest {
  const made = manifestOf(request({}, change));
  if (!('rows' in made)) throw new Error(made.why);
  return made;
}

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

  test('a stopped answer without this outing says that there is none', () => {
    const made = manifestOf(request({}, { result: { ...answer, status: 'stopped', outings: [] } }));
    expect(made).toMatchObject({ why: 'Planning was stopped before it found a bag for this outing.' });
  });
});

function textOf(source: string): string {
  return (new DOMParser().parseFromString(source, 'text/html').body.textContent ?? '').replace(/\s+/g, ' ');
}

describe('the document', () => {
  test('is the same text every time, and its hash moves with its content alone', async () => {
    const first = await manifestDocument(request());
    const again = await Promise.all(Array.from({ length: 20 }, () => manifestDocument(request())));
    expect(again.every(({ html: text }) => text === first.html)).toBe(true);
    const hashOf = (text: string): string =>
      /Content ([0-9a-f]{4} [0-9a-f]{4})/.exec(text.replaceAll('\\3a ', ':'))?.[1] ?? '';
    const letter = await manifestDocument(
      request({}, { paper: 'Letter', dataTime: '2027-01-01T00:00:00Z', person: '' }),
    );
    const other = await manifestDocument(request({ gear: 'Other cap' }));
    expect(hashOf(first.html)).toMatch(/^[0-9a-f]{4} [0-9a-f]{4}$/);
    expect(hashOf(letter.html)).toBe(hashOf(first.html));
    expect(hashOf(other.html)).not.toBe(hashOf(first.html));
    expect(await contentHash('')).toBe('e3b0 c442');
  });

  test('has a title, a language, the data’s time for the host, and a policy that lets nothing in', async () => {
    const { html: text, title } = await manifestDocument(request());
    const page = new DOMParser().parseFromString(text, 'text/html');
    expect(page.title.trim()).toBe(title);
    expect(page.documentElement.lang).toBe('en');
    expect(page.querySelector('meta[name="bagwright-data-time"]')?.getAttribute('content')).toBe(
      '2026-11-25T10:42:00+01:00',
    );
    expect(/<meta\s+name="bagwright-data-time"\s+content="([^"]{1,40})"/i.exec(text)?.[1]).toBe(
      '2026-11-25T10:42:00+01:00',
    );
    expect(page.querySelector('meta[http-equiv="Content-Security-Policy"]')?.getAttribute('content')).toMatch(
      /^default-src 'none'; /,
    );
    expect(page.querySelectorAll('script,link,img,iframe,a[href],form')).toHaveLength(0);
    expect(page.querySelectorAll('thead th:not([scope])')).toHaveLength(0);
  });

  test('breaks a long list every ten lines and says where each run belongs', async () => {
    const items = Array.from({ length: 23 }, (_, index) => line(index % 2 === 0 ? 'C' : 'W', 1, ['use']));
    const outings = [{ ...answer.outings[0]!, items }];
    const page = new DOMParser().parseFromString(
      (await manifestDocument(request({}, { result: { ...answer, outings } }))).html,
      'text/html',
    );
    const runs = [
      ...page.querySelectorAll('table:not(.steps) tr.line, table:not(.steps) tr.band, table:not(.steps) tr.part'),
    ].map((row) => row.className);
    const lengths = runs
      .join(' ')
      .split(/band|part/)
      .slice(1)
      .map((run) => (run.match(/line/g) ?? []).length);
    expect(lengths).toEqual([10, 10, 3]);
    expect([...page.querySelectorAll('tr.part')].map((row) => row.textContent?.trim())).toEqual([
      'L, lines 11 to 20 of 23',
      'L, lines 21 to 23 of 23',
    ]);
  });

  test('ends by saying so, has three lines for additions and three signatures', async () => {
    const { html: text } = await manifestDocument(request());
    const page = new DOMParser().parseFromString(text, 'text/html');
    expect(page.querySelectorAll('tr.added')).toHaveLength(3);
    expect([...page.querySelectorAll('.sign b')].map((b) => b.textContent)).toEqual([
      'Packed by',
      'Counted again by another person',
      'Received back by',
    ]);
    expect(textOf(text).trimEnd()).toMatch(/End of manifest, 8 pieces in 7 lines\.$/);
  });

  test.each(hostileTexts.map((text, index) => ({ text, index })))('typed text $index stays text', async ({ text }) => {
    const names: Names = { gear: text, task: text, outing: text, note: text, watchOut: text, source: text };
    const made = await manifestDocument(request(names, { person: text, fileName: text, appVersion: text }));
    const page = new DOMParser().parseFromString(made.html, 'text/html');
    const clean = new DOMParser().parseFromString(
      (await manifestDocument(request({ watchOut: 'x' }))).html,
      'text/html',
    );
    const shapeOf = (document: Document): string =>
      [...document.querySelectorAll('*')]
        .map((e) => `${e.tagName}${[...e.attributes].map(({ name }) => name).join(',')}`)
        .join(' ');
    expect(shapeOf(page)).toBe(shapeOf(clean));
    expect(page.querySelectorAll('style')).toHaveLength(1);
    expect(page.body.textContent).toContain(plainText(text).replace(/\r\n?/g, '\n'));
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

function hostOf(change: Partial<Host> = {}): Host & { made: DocumentToPrint[]; bytes: Uint8Array } {
  const made: DocumentToPrint[] = [];
  const bytes = pdfOfPages(3);
  return {
    made,
    bytes,
    info: () => Promise.resolve({ kind: 'browser-window', version: '9.9.9', dataFolder: '' }),
    openText: () => Promise.resolve(null),
    saveFile: () => Promise.resolve(true),
    makePdf: (document) => {
      made.push(document);
      return Promise.resolve(bytes);
    },
    printPdf: () => Promise.resolve({ opened: true, address: null }),
    ...change,
  };
}

const sheetProps = {
  plan: planOf(),
  result: answer,
  fileName: 'plan.json',
  outing: 'o1',
  units: 'both',
  dataTime: '2026-11-25T10:42:00+01:00',
} as const;

describe('the sheet', () => {
  test('shows the pages of the PDF itself, and prints and saves these very bytes', async () => {
    const printPdf = vi.fn(() => Promise.resolve({ opened: true, address: null }));
    const saveFile = vi.fn(() => Promise.resolve(true));
    const host = hostOf({ printPdf, saveFile });
    const before = host.bytes.slice();
    const screen = await shown(<ManifestSheet {...sheetProps} host={host} />);
    await expect.element(screen.getByRole('group', { name: 'Page 3 of 3' })).toBeInTheDocument();
    await expect.element(screen.getByText('This is page 1')).toBeInTheDocument();
    const canvas = screen.container.querySelector('canvas');
    const pixels = canvas?.getContext('2d')?.getImageData(0, 0, canvas.width, canvas.height).data ?? [];
    expect(pixels.some((value, at) => at % 4 < 3 && value < 100)).toBe(true);
    await screen.getByRole('button', { name: 'Print…' }).click();
    await expect.element(screen.getByText('Opened for printing.')).toBeInTheDocument();
    await screen.getByRole('button', { name: 'Save PDF…' }).click();
    await expect.element(screen.getByText('Saved as manifest_SR-01_o1_2026-11-25.pdf.')).toBeInTheDocument();
    expect(printPdf).toHaveBeenCalledWith({ name: 'manifest_SR-01_o1_2026-11-25.pdf', bytes: host.bytes });
    expect(saveFile).toHaveBeenCalledWith({
      name: 'manifest_SR-01_o1_2026-11-25.pdf',
      mediaType: 'application/pdf',
      bytes: host.bytes,
    });
    // Neither reading nor printing took or changed a byte.
    expect(host.bytes).toEqual(before);
    expect(host.made).toHaveLength(1);
    expect(host.made[0]?.html).toContain('9\\2e 9\\2e 9');
    expect(host.made[0]?.html).toContain('font/woff2;base64,');
  });

  test('another paper makes another PDF', async () => {
    const host = hostOf();
    const screen = await shown(<ManifestSheet {...sheetProps} host={host} />);
    await screen.getByRole('radio', { name: 'Letter' }).click();
    await expect.poll(() => host.made.map(({ paper }) => paper)).toEqual(['A4', 'Letter']);
  });

  test('a host that cannot make a PDF is quoted, and asked again', async () => {
    let tries = 0;
    const host = hostOf();
    const makePdf: Host['makePdf'] = (document) => {
      tries += 1;
      return tries === 1 ? Promise.reject(new Error('No browser was found on this machine.')) : host.makePdf(document);
    };
    const screen = await shown(<ManifestSheet {...sheetProps} host={{ ...host, makePdf }} />);
    await expect.element(screen.getByRole('alert')).toHaveTextContent('No PDF. No browser was found on this machine.');
    await expect.element(screen.getByRole('button', { name: 'Print…' })).toBeDisabled();
    await screen.getByRole('button', { name: 'Make it again' }).click();
    await expect.element(screen.getByRole('group', { name: 'Page 1 of 3' })).toBeInTheDocument();
  });

  test('where nothing could be opened, the address is shown', async () => {
    const host = hostOf({ printPdf: () => Promise.resolve({ opened: false, address: 'http://127.0.0.1:5000/p/1' }) });
    const screen = await shown(<ManifestSheet {...sheetProps} host={host} />);
    await screen.getByRole('button', { name: 'Print…' }).click();
    await expect.element(screen.getByRole('link', { name: 'http://127.0.0.1:5000/p/1' })).toBeInTheDocument();
  });

  test('a file that is no PDF is said, and can still be saved', async () => {
    const host = hostOf({ makePdf: () => Promise.resolve(new TextEncoder().encode('not a PDF')) });
    const screen = await shown(<ManifestSheet {...sheetProps} host={host} />);
    await expect.element(screen.getByText(/can be printed or saved, but not shown here/)).toBeInTheDocument();
    await expect.element(screen.getByRole('button', { name: 'Save PDF…' })).toBeEnabled();
  });

  test('the caution stands on the sheet, and pages are walked by button', async () => {
    const screen = await shown(<ManifestSheet {...sheetProps} host={hostOf()} />);
    await expect.element(screen.getByText('Torque and lifting can hurt people.')).toBeInTheDocument();
    const after = screen.getByRole('button', { name: 'Page after' });
    await after.click();
    await expect.element(screen.getByText('Page 2 of 3', { exact: true }).first()).toBeInTheDocument();
    (screen.getByRole('button', { name: 'Larger' }).element() as HTMLElement).focus();
    await userEvent.keyboard('{Enter}');
    await expect.element(screen.getByText('125 %')).toBeInTheDocument();
  });
});
