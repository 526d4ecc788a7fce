/** The built program in a real browser: acceptance lines S1, S2, S5, S6 and S13 for the browser window. */
import { readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import type { Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { scratchFolder } from '../electron/support/site.ts';
import { siteFolder } from '../../electron/launch/build.ts';
import { openBuilt, type OpenedBuild } from './support/openBuilt.ts';

let built: OpenedBuild;
let page: Page;
const outside = 'http://outside.invalid';
/** Why each failed request failed. */
const stopped = new Map<string, string>();

beforeAll(async () => {
  built = await openBuilt();
  page = built.page;
  built.context.on('requestfailed', (request) => stopped.set(request.url(), request.failure()?.errorText ?? ''));
  await page.waitForFunction('document.querySelector("#root")?.childElementCount > 0');
  // A string, so that it runs in the page as the page's own script would.
  await page.evaluate(`
    window.violations = [];
    addEventListener('securitypolicyviolation', ({ effectiveDirective, blockedURI }) =>
      window.violations.push(effectiveDirective + ' ' + blockedURI));
    window.ran = [];
    0;
  `);
});
afterAll(() => built.close());

const settle = (): Promise<void> => page.waitForTimeout(300);

describe('the policy of the page', () => {
  it.each([
    [
      'script written into the page',
      `const s = document.createElement('script'); s.textContent = 'ran.push(1)'; document.body.append(s)`,
      /^script-src-elem inline/,
    ],
    ['text run as script', `setTimeout('ran.push(2)', 0)`, /^script-src eval/],
    [
      'a javascript: address',
      `const a = document.createElement('a'); a.href = 'javascript:ran.push(3)'; document.body.append(a); a.click(); location.href = 'javascript:ran.push(3)'`,
      /^script-src-elem inline/,
    ],
    [
      'script in a data: address',
      `const s = document.createElement('script'); s.src = 'data:text/javascript,ran.push(4)'; document.body.append(s)`,
      /^script-src-elem data/,
    ],
    [
      'a handler written into the page',
      `const i = document.createElement('img'); i.setAttribute('onerror', 'ran.push(5)'); i.src = 'data:,'; document.body.append(i)`,
      /^script-src-attr inline/,
    ],
    [
      'script from elsewhere',
      `const s = document.createElement('script'); s.src = '${outside}/a.js'; document.body.append(s)`,
      /^script-src-elem http:\/\/outside/,
    ],
    ['a picture from elsewhere', `new Image().src = '${outside}/a.png'`, /^img-src http:\/\/outside/],
    [
      'a font from elsewhere',
      `const f = new FontFace('x', 'url(${outside}/a.woff2)'); document.fonts.add(f); f.load().catch(() => 0)`,
      /^font-src http:\/\/outside/,
    ],
    ['a connection elsewhere', `fetch('${outside}/').catch(() => 0)`, /^connect-src http:\/\/outside/],
    ['a socket', `try { new WebSocket('ws://outside.invalid/') } catch {}`, /^connect-src ws:\/\/outside/],
    ['a beacon', `navigator.sendBeacon('${outside}/')`, /^connect-src http:\/\/outside/],
    [
      'a frame',
      `const f = document.createElement('iframe'); f.src = '${outside}/'; document.body.append(f)`,
      /^frame-src http:\/\/outside/,
    ],
    [
      'an object',
      `const o = document.createElement('object'); o.data = '${outside}/'; document.body.append(o)`,
      /^(?:object|frame)-src http:\/\/outside/,
    ],
    [
      'a style without the nonce',
      `const s = document.createElement('style'); s.textContent = 'body{color:red}'; document.body.append(s)`,
      /^style-src-elem inline/,
    ],
    [
      'a base',
      `const b = document.createElement('base'); b.href = '${outside}/'; document.head.append(b)`,
      /^base-uri http:\/\/outside/,
    ],
    ['a worker from elsewhere', `try { new Worker('data:text/javascript,0') } catch {}`, /^worker-src data/],
  ])('stops %s', async (_what, attempt, expected) => {
    await page.evaluate(`window.violations.length = 0; ${attempt}; 0`);
    await expect
      .poll(() => page.evaluate('window.violations'))
      .toEqual(expect.arrayContaining([expect.stringMatching(expected)]));
    expect(await page.evaluate('window.ran')).toEqual([]);
  });

  it('names no unsafe-eval and no unsafe-inline', async () => {
    const answer = await page.request.get(`${built.origin}/`, { headers: { host: new URL(built.origin).host } });
    const policy = answer.headers()['content-security-policy'] ?? '';
    expect(policy).toMatch(/script-src 'self' 'wasm-unsafe-eval';/);
    expect(policy.replace("'wasm-unsafe-eval'", '')).not.toMatch(/unsafe/);
  });
});

describe('the window', () => {
  interface Click {
    button?: 'left' | 'middle';
    modifiers?: ('Control' | 'Shift')[];
  }
  const link = (attributes: string): string =>
    `document.querySelector('#stray')?.remove(); document.body.insertAdjacentHTML('beforeend', '<a id="stray" style="position:fixed;inset:0;z-index:99999" ${attributes}>x</a>'); 0`;
  const clicked =
    (attributes: string, { button = 'left', modifiers = [] }: Click = {}) =>
    async (): Promise<void> => {
      await page.evaluate(link(attributes));
      // The bare mouse: a locator would wait for the navigation that must not happen.
      for (const key of modifiers) await page.keyboard.down(key);
      await page.mouse.click(640, 400, { button });
      for (const key of modifiers) await page.keyboard.up(key);
      await page.evaluate(`document.querySelector('#stray')?.remove(); 0`);
    };
  const script = (text: string) => async (): Promise<void> => {
    await page.evaluate(`try { ${text} } catch {} 0`);
  };

  it.each<[string, () => Promise<void>]>([
    ['an address set', script(`location.href = '${outside}/'`)],
    ['an address assigned', script(`location.assign('http://127.0.0.1:9/')`)],
    ['an address replaced', script(`location.replace('${outside}/')`)],
    ['another page of its own server', script(`location.href = '/api/hello'`)],
    ['a data: page', script(`location.href = 'data:text/html,<p>x'`)],
    [
      'a refresh written into the page',
      script(
        `document.head.insertAdjacentHTML('beforeend', '<meta http-equiv="refresh" content="0;url=${outside}/">')`,
      ),
    ],
    [
      'a form sent',
      script(`const f = document.createElement('form'); f.action = '${outside}/'; document.body.append(f); f.submit()`),
    ],
    [
      'a form sent to a new window',
      script(
        `const f = document.createElement('form'); f.action = '${outside}/'; f.target = '_blank'; document.body.append(f); f.requestSubmit()`,
      ),
    ],
    ['a link', clicked(`href="${outside}/"`)],
    ['a link to a new window', clicked(`href="${outside}/" target="_blank"`)],
    ['a link to a named window', clicked(`href="${outside}/" target="other"`)],
    ['a link to itself in a new window', clicked('href="/" target="_blank"')],
    ['a middle click', clicked(`href="${outside}/"`, { button: 'middle' })],
    ['a click with Ctrl', clicked(`href="${outside}/"`, { modifiers: ['Control'] })],
    ['a click with Shift', clicked('href="/"', { modifiers: ['Shift'] })],
    ['a window opened', script(`window.open('${outside}/')`)],
    ['a window opened on itself', script(`window.open('/', '_self')`)],
    ['a link that downloads from elsewhere', clicked(`href="${outside}/a.exe" download`)],
    ['a dropped HTML file', (): Promise<void> => dropFile('stray.html', '<title>stray</title><p>x')],
    ['a dropped picture', (): Promise<void> => dropFile('stray.svg', '<svg xmlns="http://www.w3.org/2000/svg"/>')],
    [
      'a dropped link',
      (): Promise<void> => drop({ items: [{ mimeType: 'text/uri-list', data: `${outside}/` }], files: [] }),
    ],
  ])('stays where it is and alone at %s', async (_what, attempt) => {
    const downloads: string[] = [];
    page.once('download', (download) => downloads.push(download.url()));
    await page.evaluate(`window.stillHere = true; 0`);
    await attempt();
    await settle();
    expect(page.url()).toBe(`${built.origin}/`);
    expect(await page.evaluate('window.stillHere')).toBe(true);
    expect(built.context.pages()).toHaveLength(1);
    expect(downloads).toEqual([]);
  });

  interface Dragged {
    items: { mimeType: string; data: string }[];
    files: string[];
  }

  async function drop(dragged: Dragged): Promise<void> {
    const session = await built.context.newCDPSession(page);
    for (const type of ['dragEnter', 'dragOver', 'drop'] as const) {
      await session.send('Input.dispatchDragEvent', {
        type,
        x: 400,
        y: 300,
        data: { ...dragged, dragOperationsMask: 1 },
      });
    }
    await session.detach();
  }

  async function dropFile(name: string, text: string): Promise<void> {
    const file = join(scratchFolder(), name);
    writeFileSync(file, text);
    await drop({ items: [], files: [file] });
  }

  it('can still move by its fragment, and hand a file to be saved', async () => {
    await page.evaluate(`location.hash = '#there'; 0`);
    await expect.poll(() => page.url()).toBe(`${built.origin}/#there`);
    await page.evaluate(`history.replaceState(null, '', '/'); 0`);
    const download = page.waitForEvent('download');
    await page.evaluate(`{
      const a = document.createElement('a');
      a.href = URL.createObjectURL(new Blob(['x']));
      a.download = 'bag.txt';
      a.click();
    } 0`);
    expect((await download).suggestedFilename()).toBe('bag.txt');
  });
});

const permissions = [
  ...[
    'accelerometer',
    'ambient-light-sensor',
    'camera',
    'clipboard-read',
    'display-capture',
    'geolocation',
    'gyroscope',
  ],
  ...['idle-detection', 'local-fonts', 'magnetometer', 'microphone', 'midi', 'notifications', 'persistent-storage'],
  ...['screen-wake-lock', 'payment-handler', 'window-management'],
];

describe('the page', () => {
  it('has nothing of Node, in itself, in a frame, in a worker', async () => {
    const names = ['require', 'process', 'module', 'Buffer', 'global'];
    const look = `${JSON.stringify(names)}.filter((name) => typeof globalThis[name] !== 'undefined')`;
    expect(await page.evaluate(look)).toEqual([]);
    expect(
      await page.evaluate(`{
        const frame = document.createElement('iframe');
        document.body.append(frame);
        const found = ${JSON.stringify(names)}.filter((name) => typeof frame.contentWindow[name] !== 'undefined');
        frame.remove();
        found;
      }`),
    ).toEqual([]);
    // One of the program's own workers, begun as the program begins it.
    const begun = page.waitForEvent('worker');
    const script = readdirSync(join(siteFolder, 'assets')).find((name) => /worker.*\.js$/i.test(name)) ?? '';
    await page.evaluate(`window.tried = new Worker('/assets/${script}', { type: 'module' }); 0`);
    expect(await (await begun).evaluate(look)).toEqual([]);
    await page.evaluate(`window.tried.terminate(); 0`);
  });

  it('keeps its token out of its document, address, stores and cookies', async () => {
    const held = await page.evaluate(`({
      html: document.documentElement.outerHTML,
      address: location.href,
      local: JSON.stringify({ ...localStorage }),
      session: JSON.stringify({ ...sessionStorage }),
      cookie: document.cookie,
      names: performance.getEntriesByType('resource').map(({ name }) => name).join(),
    })`);
    expect(JSON.stringify(held)).not.toMatch(/bagwright-token"? content|[\w-]{43}(?=")/);
    expect(await built.context.cookies()).toEqual([]);
  });

  it('has no service worker', async () => {
    expect(await page.evaluate('navigator.serviceWorker.getRegistrations().then((all) => all.length)')).toBe(0);
  });

  it('is granted none of the permissions a page can ask for', async () => {
    expect(permissions.length).toBeGreaterThanOrEqual(15);
    const states = await page.evaluate(`Promise.all(
      ${JSON.stringify(permissions)}
        .map((name) => navigator.permissions.query({ name }).then(({ state }) => name + ' ' + (document.featurePolicy.allowsFeature(name) ? state : 'denied by policy'), () => name + ' denied')))`);
    expect((states as string[]).filter((state) => state.endsWith('granted'))).toEqual([]);
  });
});

describe('the profile on the disk', () => {
  it('holds the token of the run nowhere', async () => {
    const profile = scratchFolder();
    const again = await openBuilt({ profile, blank: true });
    const [answer] = await Promise.all([
      again.page.waitForResponse(`${again.origin}/`),
      again.page.goto(`${again.origin}/`),
    ]);
    const token = /name="bagwright-token" content="([\w-]{43})"/.exec(await answer.text())?.[1] ?? '';
    expect(token).toHaveLength(43);
    await again.page.waitForFunction('document.querySelector("#root")?.childElementCount > 0');
    await again.close();
    const files = readdirSync(profile, { recursive: true, withFileTypes: true }).filter((entry) => entry.isFile());
    expect(files.length).toBeGreaterThan(20);
    const holding = files.filter(({ parentPath, name }) => readFileSync(join(parentPath, name)).includes(token));
    expect(holding.map(({ name }) => name)).toEqual([]);
  });
});

describe('the whole run', () => {
  it('asked nothing of any other place', () => {
    // The browser tells of the attempts above too, and of each that the policy stopped it before it was made.
    const made = built.requestsOutside.filter((url) => stopped.get(url) !== 'csp');
    expect(made).toEqual([]);
  });
});
