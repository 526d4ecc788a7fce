import { afterAll, describe, expect, it } from 'vitest';
import { findBrowser } from '../../electron/launch/findBrowser.ts';
import { pdfMaker } from '../../electron/launch/pdf.ts';
import { browserHost, type PageMeans } from '../../renderer/host/browserHost.ts';
import { hostContract, type HostUnderTest } from './hostContract.ts';
import { loadPage, serve } from './servedPage.ts';

const opened: string[] = [];

async function open(): Promise<HostUnderTest> {
  const pdf = pdfMaker({ browser: findBrowser() });
  const server = await serve({ makePdf: pdf.make });
  let chosen: { name: string; bytes: Uint8Array } | null = null;
  let saved: { name: string; bytes: Uint8Array } | null = null;
  const means: PageMeans = {
    ...(await loadPage(server)),
    chooseFile: () => Promise.resolve(chosen === null ? null : new File([Uint8Array.from(chosen.bytes)], chosen.name)),
    download: (file) => void (saved = file),
  };
  server.openWith((address) => {
    opened.push(address);
    return Promise.resolve(true);
  });
  return {
    host: browserHost(means),
    choose: (file) => void (chosen = file),
    saved: () => saved,
    printed: async () => new Uint8Array(await (await fetch(opened.at(-1) ?? '')).arrayBuffer()),
    close: async () => {
      await Promise.all([server.close(), pdf.close()]);
    },
  };
}

hostContract('browser-window', open);

describe('what only the browser window does', () => {
  it('refuses by name where the program behind it is gone', async () => {
    const host = browserHost({
      token: 'x',
      fetch: () => Promise.reject(new TypeError('fetch failed')),
      chooseFile: () => Promise.resolve(null),
      download: () => undefined,
    });
    await expect(host.info()).rejects.toMatchObject({
      refusal: { code: 'not-available', message: expect.stringMatching(/Start Bagwright again/) as string },
    });
  });

  it('refuses by name where no browser can make a PDF', async () => {
    const pdf = pdfMaker({ browser: null });
    await expect(pdf.make({ title: 'a', html: 'a', paper: 'A4' })).rejects.toMatchObject({
      refusal: { code: 'not-available' },
    });
  });

  it('gives up on a document that takes too long, and a later one is made all the same', async () => {
    let deadlineMs = 1;
    const pdf = pdfMaker({
      browser: findBrowser(),
      get deadlineMs() {
        return deadlineMs;
      },
    });
    afterAll(() => pdf.close());
    const asked = { title: 'a', html: '<p>text', paper: 'Letter' } as const;
    await expect(pdf.make(asked)).rejects.toMatchObject({
      refusal: { code: 'internal', message: expect.stringMatching(/not finished within/) as string },
    });
    deadlineMs = 60_000;
    expect(
      Buffer.from(await pdf.make(asked))
        .subarray(0, 5)
        .toString(),
    ).toBe('%PDF-');
  });
});
