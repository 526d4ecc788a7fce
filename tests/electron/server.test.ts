/** The loopback server: acceptance lines S11 to S16, R29. Requests are written byte for byte where it matters. */
import { spawn, type ChildProcess } from 'node:child_process';
import { readdirSync, readFileSync, symlinkSync, writeFileSync } from 'node:fs';
import { networkInterfaces } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { journalDesk } from '../../electron/journal/desk.ts';
import { mostSilent, mostSpoken } from '../../electron/launch/connections.ts';
import { isOurs } from '../../electron/launch/hello.ts';
import { printedShelf } from '../../electron/launch/printed.ts';
import { startServer, type RunningServer } from '../../electron/launch/server.ts';
import { freshToken, helloKey, sameSecret } from '../../electron/launch/token.ts';
import { listFiles, loadSite, readMap } from '../../electron/site/buildMap.ts';
import { rawRequest, type RawReply } from './support/rawRequest.ts';
import { sampleBuild, sampleSite, scratchFolder } from './support/site.ts';
import { traversals } from './support/traversals.ts';
import { floodSource, howBusy } from './support/flood.ts';

const data = scratchFolder();
let server: RunningServer;
let token: string;
const answers: RawReply[] = [];

beforeAll(async () => {
  server = await startServer({
    port: 0,
    site: sampleSite(),
    version: '1.2.3',
    dataFolder: data,
    helloKey: helloKey(data),
    journal: journalDesk({ folder: join(scratchFolder(), 'journal') }),
    makePdf: () => Promise.resolve(new TextEncoder().encode('%PDF-1.7\n%%EOF\n')),
  });
  token = tokenIn((await ask(get('/'))).body);
});
afterAll(() => server.close());

const tokenIn = (page: string): string => /name="bagwright-token" content="([^"]*)"/.exec(page)?.[1] ?? '';
const host = (): string => `127.0.0.1:${server.port}`;

async function ask(text: string): Promise<RawReply> {
  const answer = await rawRequest(server.port, text);
  answers.push(answer);
  return answer;
}

function get(path: string, lines: string[] = [`Host: ${host()}`], method = 'GET'): string {
  return `${method} ${path} HTTP/1.1\r\n${lines.map((line) => `${line}\r\n`).join('')}\r\n`;
}

interface Call {
  path?: string;
  origin?: string | null;
  token?: string | null;
  type?: string;
  body?: string;
  more?: string[];
}

function post({ path = '/api/info', body = '{}', type = 'application/json', more = [], ...given }: Call = {}): string {
  const origin = given.origin === undefined ? `http://${host()}` : given.origin;
  const shown = given.token === undefined ? token : given.token;
  return (
    get(
      path,
      [
        `Host: ${host()}`,
        ...(origin === null ? [] : [`Origin: ${origin}`]),
        ...(shown === null ? [] : [`x-bagwright-token: ${shown}`]),
        `Content-Type: ${type}`,
        `Content-Length: ${Buffer.byteLength(body)}`,
        ...more,
      ],
      'POST',
    ) + body
  );
}

describe('the address', () => {
  it('is 127.0.0.1 and no other', async () => {
    expect(server.address.address).toBe('127.0.0.1');
    const others = Object.values(networkInterfaces())
      .flatMap((found) => found ?? [])
      .filter(({ address, internal }) => !internal && !address.startsWith('fe80'))
      .map(({ address }) => address);
    for (const address of [...others, '::1', '127.0.0.2']) {
      await expect(rawRequest(server.port, get('/'), address), address).rejects.toThrow();
    }
  });

  it.each([
    ['evil.example', 421],
    ['127.0.0.1.evil.example:PORT', 421],
    ['localhost:PORT', 421],
    ['localhost:1', 421],
    ['127.0.0.1', 421],
    ['127.0.0.1:1', 421],
    ['[::1]:PORT', 421],
    ['127.0.0.1:PORT.', 421],
    ['127.1:PORT', 421],
    ['', 421],
  ])('answers no Host "%s"', async (name, status) => {
    const answer = await ask(get('/', [`Host: ${name.replace('PORT', String(server.port))}`]));
    expect(answer.status).toBe(status);
    expect(answer.body).not.toContain(token);
  });

  it('answers no request without a Host, with two, or with a whole address in it', async () => {
    expect((await ask(get('/', []))).status).toBe(400);
    expect((await ask(get('/', [`Host: ${host()}`, `Host: ${host()}`]))).status).toBe(400);
    expect((await ask(get('/', [`Host: ${host()}`, 'Host: evil.example']))).status).toBe(400);
    expect((await ask(get('http://evil.example/'))).status).toBe(400);
    expect((await ask(get(`http://${host()}/`))).status).toBe(400);
    expect((await ask(get('*', undefined, 'OPTIONS'))).status).toBe(400);
  });
});

describe('the page', () => {
  it('is served with a fresh nonce in page and policy, and the token in the page only', async () => {
    const [first, second] = [await ask(get('/')), await ask(get('/'))];
    const nonceOf = (answer: RawReply): string =>
      /'nonce-([^']+)'/.exec(answer.headers['content-security-policy']?.[0] ?? '')?.[1] ?? '';
    expect(nonceOf(first)).toMatch(/^[A-Za-z0-9+/]{22}==$/);
    expect(nonceOf(first)).not.toBe(nonceOf(second));
    expect(first.body).toContain(`nonce="${nonceOf(first)}"`);
    expect(first.headers['cache-control']).toEqual(['no-store']);
    expect(Buffer.from(token, 'base64url')).toHaveLength(32);
    expect(JSON.stringify(first.headers)).not.toContain(token);
    expect(first.headers['set-cookie']).toBeUndefined();
  });

  it('is not for another site to load', async () => {
    for (const site of ['cross-site', 'same-site', 'nonsense']) {
      const answer = await ask(get('/', [`Host: ${host()}`, `Sec-Fetch-Site: ${site}`]));
      expect(answer.status).toBe(403);
      expect(answer.body).not.toContain(token);
    }
    for (const site of ['same-origin', 'none']) {
      expect((await ask(get('/', [`Host: ${host()}`, `Sec-Fetch-Site: ${site}`]))).status).toBe(200);
    }
  });

  it('comes with its files, by GET and HEAD', async () => {
    const script = await ask(get('/assets/index-1a2b.js'));
    expect([script.status, script.body]).toEqual([200, 'export const one = 1;\n']);
    expect(script.headers['content-type']).toEqual(['text/javascript; charset=utf-8']);
    expect(script.headers['cache-control']).toEqual(['public, max-age=31536000, immutable']);
    const head = await ask(get('/assets/index-1a2b.js', undefined, 'HEAD'));
    expect([head.status, head.body, head.headers['content-length']]).toEqual([200, '', ['22']]);
  });

  it.each(['PUT', 'DELETE', 'TRACE', 'OPTIONS', 'PATCH', 'PROPFIND'])('is not asked by %s', async (method) => {
    expect((await ask(get('/', undefined, method))).status).toBe(405);
  });
});

describe('what is not in the build', () => {
  it.each(traversals.map((path) => [path.slice(0, 40), path]))('is not served: %s', async (_shown, path) => {
    const answer = await ask(get(path));
    expect([400, 404]).toContain(answer.status);
    expect(answer.body.length).toBeLessThan(60);
  });

  it('cannot be brought in by a link, a changed file or an odd name', () => {
    const linked = sampleBuild();
    symlinkSync('/etc/passwd', join(linked, 'renderer', 'assets', 'passwd.txt'));
    expect(() => listFiles(join(linked, 'renderer'))).toThrow(/link/);
    const listed = [{ path: 'assets/passwd.txt', bytes: 1, sha256: '' }];
    expect(() => loadSite(join(linked, 'renderer'), listed)).toThrow(/link/);

    const changed = sampleBuild();
    writeFileSync(join(changed, 'renderer', 'assets', 'index-1a2b.js'), 'export const one = 2;\n');
    expect(() => loadSite(join(changed, 'renderer'), readMap(join(changed, 'files.json')))).toThrow(/not the file/);

    for (const path of ['../../../etc/passwd', '/etc/passwd', 'a/../b.js', '.env.js', 'a b.js', 'a%2e.js']) {
      expect(() => loadSite(join(changed, 'renderer'), [{ path, bytes: 1, sha256: '' }]), path).toThrow(
        /must not serve/,
      );
    }
    expect(() => readMap(join(changed, 'absent.json'))).toThrow(/npm run build/);
  });
});

describe('a call', () => {
  it('with everything right is answered', async () => {
    const answer = await ask(post());
    expect(answer.status).toBe(200);
    expect(JSON.parse(answer.body)).toEqual({ kind: 'browser-window', version: '1.2.3', dataFolder: data });
  });

  it.each([
    'null',
    'https://evil.example',
    'http://localhost:PORT',
    'http://127.0.0.1',
    'http://127.0.0.1:PORT/',
    null,
  ])('from the origin %s is refused', async (origin) => {
    const given = origin === null ? null : origin.replace('PORT', String(server.port));
    for (const path of ['/api/info', '/api/pdf', '/api/print', '/']) {
      expect((await ask(post({ path, origin: given }))).status).toBe(403);
    }
  });

  it('without the token, or with another, is refused before its body is read', async () => {
    const flipped = (token.startsWith('A') ? 'B' : 'A') + token.slice(1);
    for (const path of ['/api/info', '/api/pdf', '/api/print']) {
      for (const wrong of [null, '', 'x', flipped, token.slice(0, -1), `${token}x`, freshToken()]) {
        expect((await ask(post({ path, token: wrong }))).status).toBe(401);
        expect((await ask(post({ path, token: wrong, body: '', more: ['Content-Length: 900'] }))).status).toBeOneOf([
          400, 401,
        ]);
      }
    }
  });

  it('shows its token in a header and nowhere else', async () => {
    expect((await ask(post({ path: `/api/info?token=${token}`, token: null }))).status).toBe(401);
    expect((await ask(post({ token: null, more: [`Cookie: token=${token}`] }))).status).toBe(401);
    expect((await ask(get(`/?token=${token}`))).status).toBe(404);
  });

  it('compares secrets whatever their length', () => {
    expect(sameSecret('', 'a')).toBe(false);
    expect(sameSecret('ab', 'a')).toBe(false);
    expect(sameSecret('a', 'a')).toBe(true);
    const source = readFileSync(new URL('../../electron/launch/token.ts', import.meta.url), 'utf8');
    expect(source).toMatch(/timingSafeEqual\(digest\(given\), digest\(expected\)\)/);
  });

  it('of another kind, place or method is refused', async () => {
    expect((await ask(post({ type: 'text/plain' }))).status).toBe(415);
    expect((await ask(post({ type: 'application/x-www-form-urlencoded' }))).status).toBe(415);
    expect((await ask(post({ path: '/api/none' }))).status).toBe(404);
    expect((await ask(post({ path: '/api/constructor' }))).status).toBe(404);
    expect((await ask(post({ path: '/' }))).status).toBe(405);
    expect((await ask(get('/api/info'))).status).toBe(405);
  });

  it('with a broken or wrong argument is refused by name', async () => {
    const broken = await ask(post({ path: '/api/pdf', body: '{"title":' }));
    expect([broken.status, broken.body]).toEqual([422, expect.stringContaining('"not-json"')]);
    const wrong = await ask(
      post({ path: '/api/pdf', body: '{"title":"a","html":"b","paper":"A4","path":"/etc/passwd"}' }),
    );
    expect([wrong.status, wrong.body]).toEqual([422, expect.stringContaining('"wrong-shape"')]);
  });

  it('with names that reach behind an object, or with a million levels, is refused, and answers go on', async () => {
    const bodies = [
      '{"title":"a","html":"b","paper":"A4","__proto__":{"polluted":true}}',
      '{"__proto__":{"title":"a","html":"b","paper":"A4"}}',
      '{"constructor":{"prototype":{"polluted":true}}}',
      '['.repeat(1_000_000) + ']'.repeat(1_000_000),
    ];
    for (const path of ['/api/pdf', '/api/journal/append', '/api/snapshots/read']) {
      for (const body of bodies) expect((await ask(post({ path, body }))).status).toBeOneOf([404, 413, 422]);
    }
    expect(({} as Record<string, unknown>)['polluted']).toBeUndefined();
    expect((await ask(post())).status).toBe(200);
  });

  it('of more than it takes is refused without taking it', async () => {
    const declared = await ask(
      post({ path: '/api/pdf', more: [], body: '' }).replace('Content-Length: 0', 'Content-Length: 70000000'),
    );
    expect(declared.status).toBe(413);
    const grown = await ask(post({ body: JSON.stringify({ a: 'x'.repeat(2_000) }) }));
    expect(grown.status).toBe(413);
  });
});

describe('a printed document', () => {
  it('is shown at an address nobody can guess, and only there', async () => {
    const body = '%PDF-1.7\nbytes\n%%EOF\n';
    const more = ['x-bagwright-file-name: Bag%20%22B%22.pdf'];
    const answer = await ask(post({ path: '/api/print', type: 'application/pdf', body, more }));
    const { opened, address } = JSON.parse(answer.body) as { opened: boolean; address: string };
    expect(opened).toBe(false);
    expect(address).toMatch(new RegExp(`^http://${host()}/document/[\\w-]{43}\\.pdf$`));
    const shown = await ask(get(new URL(address).pathname));
    expect([shown.status, shown.body]).toEqual([200, body]);
    expect(shown.headers['content-disposition']?.[0]).toBe("inline; filename*=UTF-8''Bag%20-B-.pdf");
    expect(shown.headers['content-security-policy']?.[0]).toContain("default-src 'none'; object-src 'self'");
    expect((await ask(get('/document/aaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaa.pdf'))).status).toBe(404);
  });

  it('gives up its place to newer ones', () => {
    const shelf = printedShelf({ documents: 2, bytes: 10 });
    const keep = (bytes: number): string => shelf.keep({ name: 'a', bytes: Buffer.alloc(bytes) });
    const [first, second, third] = [keep(1), keep(1), keep(1)];
    expect([first, second, third].map((path) => shelf.find(path) !== null)).toEqual([false, true, true]);
    const large = keep(50);
    expect([second, third, large].map((path) => shelf.find(path) !== null)).toEqual([false, false, true]);
  });
});

describe('another copy of the program', () => {
  it('is known by the key they share, and by nothing less', async () => {
    expect(await isOurs(server.port, helloKey(data))).toBe(true);
    expect(await isOurs(server.port, Buffer.alloc(32, 9))).toBe(false);
    expect((await ask(get('/api/hello'))).status).toBe(400);
    expect((await ask(get('/api/hello', [`Host: ${host()}`, 'x-bagwright-nonce: short']))).status).toBe(400);
  });
});

describe('oddities', () => {
  it.each([
    ['an upgrade', (): string => get('/', [`Host: ${host()}`, 'Connection: Upgrade', 'Upgrade: websocket']), 400],
    ['a tunnel', (): string => get('evil.example:443', undefined, 'CONNECT'), 405],
    ['an expectation', (): string => get('/', [`Host: ${host()}`, 'Expect: miracles']), 417],
    ['no HTTP', (): string => 'hello\r\n\r\n', 400],
    ['too long a header', (): string => get('/', [`Host: ${host()}`, `X-Long: ${'x'.repeat(17_000)}`]), 431],
    ['a smuggled body', (): string => post({ more: ['Transfer-Encoding: chunked'] }), 400],
    ['a bare line feed in a header', (): string => get('/', [`Host: ${host()}`, 'X-A: b\nX-C: d']), 400],
  ])('%s is refused', async (_what, text, status) => {
    expect((await ask(text())).status).toBe(status);
  });
});

describe('slow and half-open connections', () => {
  let flood: ChildProcess | null = null;
  afterAll(() => void flood?.kill('SIGKILL'));

  it('ten thousand of them leave the page answering within a second', async () => {
    flood = spawn(process.execPath, ['-e', floodSource, String(server.port)], { stdio: ['ignore', 'pipe', 'inherit'] });
    const flooded = { opened: 0 };
    flood.stdout?.on('data', (part: Buffer) => (flooded.opened = Number(String(part).trim().split('\n').at(-1))));
    const askTimed = async (): Promise<number> => {
      const started = performance.now();
      expect((await rawRequest(server.port, get('/'))).status).toBe(200);
      return performance.now() - started;
    };
    const middle = (values: readonly number[]) =>
      values.toSorted((a, b) => a - b)[Math.floor(values.length / 2)] ?? NaN;
    // While they pour in, this process shares the machine with the one that makes them: the middle one counts.
    const [whilePouringMs, busyThen]: [number[], number[]] = [[], []];
    while (flooded.opened < 10_000 && flood.exitCode === null) {
      whilePouringMs.push(await askTimed());
      busyThen.push(howBusy());
    }
    expect(flooded.opened).toBe(10_000);
    expect(middle(whilePouringMs)).toBeLessThan(1_000 * middle(busyThen));
    // Once they stand, every single one counts.
    for (let turn = 0; turn < 30; turn += 1) {
      const [before, took, after] = [howBusy(), await askTimed(), howBusy()];
      expect(took).toBeLessThan(1_000 * Math.max(before, after));
    }
    expect(server.connections()).toBeLessThanOrEqual(mostSilent + mostSpoken);
  });
});

describe('every answer of this run', () => {
  it('carried the security headers, and none opened the server to others', () => {
    expect(answers.length).toBeGreaterThan(120);
    for (const { headers, status } of answers) {
      const one = (name: string): string => {
        expect(headers[name], `${name} of a ${status}`).toHaveLength(1);
        return headers[name]?.[0] ?? '';
      };
      expect(one('content-security-policy')).toMatch(/default-src 'none'.*frame-ancestors 'none'/);
      expect(one('content-security-policy')).not.toMatch(/unsafe-eval'(?<!wasm-unsafe-eval')/);
      expect(one('x-content-type-options')).toBe('nosniff');
      expect(one('referrer-policy')).toBe('no-referrer');
      expect(one('cross-origin-resource-policy')).toBe('same-origin');
      expect(one('cross-origin-opener-policy')).toBe('same-origin');
      expect(one('cross-origin-embedder-policy')).toBe('require-corp');
      expect(one('permissions-policy')).toContain('usb=()');
      expect(one('cache-control')).not.toBe('');
      expect(Object.keys(headers).filter((name) => name.startsWith('access-control-'))).toEqual([]);
      expect(headers['server'] ?? headers['x-powered-by']).toBeUndefined();
    }
  });

  it('left the token on no disk', () => {
    const held = readdirSync(data, { recursive: true, withFileTypes: true }).filter((entry) => entry.isFile());
    expect(held.map(({ name }) => name)).toEqual(['hello.key']);
    for (const { parentPath, name } of held) {
      const bytes = readFileSync(join(parentPath, name));
      expect(bytes.includes(token) || bytes.includes(Buffer.from(token, 'base64url'))).toBe(false);
    }
  });
});
