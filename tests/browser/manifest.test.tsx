import { userEvent } from 'vitest/browser';
import { describe, expect, test, vi } from 'vitest';
import type { DocumentToPrint, Host } from '../../shared-types/host.ts';
import { contentHash } from '../../renderer/features/manifest/contentHash.ts';
import { plainText } from '../../renderer/features/manifest/html.ts';
import { manifestDocument } from '../../renderer/features/manifest/manifestDocument.ts';
import { ManifestSheet } from '../../renderer/features/manifest/ManifestSheet.tsx';
import { hostileTexts } from './hostileTexts.ts';
import { answer, line, planOf, request, textOf, type Names } from './manifestPlan.ts';
import { pdfOfPages } from './pdfOfPages.ts';
import { shown } from './shown.tsx';
import { noSnapshots } from './support/noSnapshots.ts';
import { memoryJournal } from '../support/memoryJournal.ts';

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
    const outings = answer.outings.map((outing) => ({ ...outing, items }));
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
    // The last line stands with the signatures, under a row of its own.
    expect(lengths).toEqual([10, 10, 2, 1]);
    expect([...page.querySelectorAll('tr.part')].map((row) => row.textContent?.trim().replaceAll(/\s+/g, ' '))).toEqual(
      ['Lead’s bag (L), lines 11 to 20 of 23', 'Lead’s bag (L), lines 21 to 22 of 23', 'Lead’s bag (L), line 23 of 23'],
    );
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

function hostOf(change: Partial<Host> = {}): Host & { made: DocumentToPrint[]; bytes: Uint8Array } {
  const made: DocumentToPrint[] = [];
  const bytes = pdfOfPages(3);
  return {
    made,
    bytes,
    journal: memoryJournal().window(),
    info: () => Promise.resolve({ kind: 'browser-window', version: '9.9.9', dataFolder: '' }),
    openText: () => Promise.resolve(null),
    saveFile: () => Promise.resolve(true),
    makePdf: (document) => {
      made.push(document);
      return Promise.resolve(bytes);
    },
    printPdf: () => Promise.resolve({ opened: true, address: null }),
    snapshots: noSnapshots(),
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
