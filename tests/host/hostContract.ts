/** What every host promises the page, whichever it is. Both hosts run these very tests. */
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { Host, HostInfo } from '../../shared-types/host.ts';
import { journalContract } from './journalContract.ts';
import { snapshotContract } from './snapshotContract.ts';
import { hostileNames, isSafeOnWindows } from './hostileNames.ts';
import { refusalFrom } from './refusalFrom.ts';

export interface HostUnderTest {
  host: Host;
  /** The file a person picks next; null puts the choice off. */
  choose: (file: { name: string; bytes: Uint8Array } | null) => void;
  /** The last file handed over for saving: the name proposed, the bytes as they arrived. */
  saved: () => { name: string; bytes: Uint8Array } | null;
  /** The bytes the viewer was given last. */
  printed: () => Promise<Uint8Array>;
  close: () => Promise<void>;
}

const utf8 = (text: string): Uint8Array => new TextEncoder().encode(text);
const latin1 = (bytes: Uint8Array): string => Buffer.from(bytes).toString('latin1');

const manifest = {
  title: 'Bag B-1',
  paper: 'A4' as const,
  html:
    '<!doctype html><html lang="en"><head><title>Bag B-1</title>' +
    '<meta name="bagwright-data-time" content="2031-04-05T10:20:30Z"></head><body><h1>Bag B-1</h1></body></html>',
};

export function hostContract(kind: HostInfo['kind'], open: () => Promise<HostUnderTest>): void {
  describe(`the host contract, kept by ${kind}`, () => {
    let under: HostUnderTest;
    beforeAll(async () => {
      under = await open();
    });
    afterAll(async () => {
      await under.close();
    });

    it('says what it is and where the data lie', async () => {
      const info = await under.host.info();
      expect(info.kind).toBe(kind);
      expect(info.version).toMatch(/^\d+\.\d+\.\d+/);
      expect(info.dataFolder.length).toBeGreaterThan(3);
    });

    it('opens a chosen text with its name, without a byte order mark', async () => {
      under.choose({ name: 'plan ½.json', bytes: utf8('\uFEFF{"torque":"12 N·m"}') });
      expect(await under.host.openText({ extensions: ['json'], maxBytes: 100 })).toEqual({
        name: 'plan ½.json',
        text: '{"torque":"12 N·m"}',
      });
    });

    it('answers null where the choice is put off', async () => {
      under.choose(null);
      expect(await under.host.openText({ extensions: ['.json'], maxBytes: 100 })).toBeNull();
    });

    it('reads a file of exactly the limit and refuses one byte more, naming it', async () => {
      under.choose({ name: 'fits.csv', bytes: utf8('x'.repeat(50)) });
      expect((await under.host.openText({ extensions: ['csv'], maxBytes: 50 }))?.text).toHaveLength(50);
      under.choose({ name: 'big.csv', bytes: utf8('x'.repeat(51)) });
      expect(await refusalFrom(under.host.openText({ extensions: ['csv'], maxBytes: 50 }))).toMatchObject({
        code: 'too-large',
        file: 'big.csv',
        value: 51,
      });
    });

    it('refuses bytes that are not text', async () => {
      under.choose({ name: 'noise.json', bytes: Uint8Array.of(0x7b, 0xff, 0xfe, 0x80) });
      expect(await refusalFrom(under.host.openText({ extensions: ['json'], maxBytes: 50 }))).toMatchObject({
        code: 'unreadable-file',
        file: 'noise.json',
      });
    });

    it('saves the very bytes', async () => {
      const bytes = Uint8Array.from({ length: 256 }, (_, index) => index);
      expect(await under.host.saveFile({ name: 'bag.json', mediaType: 'application/json', bytes })).toBe(true);
      expect(under.saved()?.name).toBe('bag.json');
      expect([...(under.saved()?.bytes ?? [])]).toEqual([...bytes]);
    });

    it.each(hostileNames)('proposes a name every system takes, for %j', async (name) => {
      await under.host.saveFile({ name, mediaType: 'text/plain', bytes: utf8('x') });
      expect(under.saved()?.name).toSatisfy(isSafeOnWindows);
    });

    it('makes the same PDF from the same document, dated by its data', async () => {
      const [first, second] = [await under.host.makePdf(manifest), await under.host.makePdf(manifest)];
      expect(latin1(first.subarray(0, 5))).toBe('%PDF-');
      expect(Buffer.from(first).equals(Buffer.from(second))).toBe(true);
      expect(latin1(first)).toContain("/CreationDate (D:20310405102030+00'00')");
      expect(latin1(first)).toContain("/ModDate (D:20310405102030+00'00')");
    });

    it('makes PDFs asked for at the same time, each its own', async () => {
      const two = await Promise.all(
        ['Bag one', 'Bag two'].map((title) =>
          under.host.makePdf({ ...manifest, html: manifest.html.replaceAll('Bag B-1', title) }),
        ),
      );
      expect(two.map((pdf) => /Bag (?:one|two)/.exec(latin1(pdf))?.[0])).toEqual(['Bag one', 'Bag two']);
    });

    it('refuses a document of the wrong shape, naming the field', async () => {
      const wrong = { ...manifest, paper: 'A3' } as unknown as typeof manifest;
      expect(await refusalFrom(under.host.makePdf(wrong))).toMatchObject({
        code: 'wrong-shape',
        message: expect.stringMatching(/paper/) as string,
      });
    });

    it('hands the very bytes to the viewer', async () => {
      const bytes = utf8('%PDF-1.7\nthe one rendering\n%%EOF\n');
      const outcome = await under.host.printPdf({ name: 'Bag/../1.pdf', bytes });
      expect(outcome.opened || outcome.address !== null).toBe(true);
      expect(Buffer.from(await under.printed()).equals(Buffer.from(bytes))).toBe(true);
    });

    it('prints nothing that is not a PDF', async () => {
      expect(await refusalFrom(under.host.printPdf({ name: 'a.pdf', bytes: utf8('<html>') }))).toMatchObject({
        code: 'wrong-shape',
      });
    });

    journalContract(() => under.host.journal);
    snapshotContract(() => under.host);
  });
}
