/** The program's server in a process of its own, so that a test can end it at any instant. */
import { spawn, type ChildProcess } from 'node:child_process';
import { mkdtempSync, rmSync } from 'node:fs';
import { createServer, type AddressInfo } from 'node:net';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { build } from 'vite';

const source = fileURLToPath(new URL('serve.ts', import.meta.url));
const startMs = 60_000;

let script: Promise<string> | null = null;

/** `serve.ts` as one plain file, made once: a test starts it dozens of times, and each time it is up at once. */
async function plainScript(): Promise<string> {
  const outDir = mkdtempSync(join(tmpdir(), 'bagwright-serve-'));
  process.on('exit', () => rmSync(outDir, { recursive: true, force: true }));
  await build({
    configFile: false,
    logLevel: 'error',
    ssr: { noExternal: true, target: 'node' },
    build: {
      ssr: source,
      outDir,
      target: 'node20',
      rolldownOptions: { output: { entryFileNames: 'serve.mjs' } },
    },
  });
  return join(outDir, 'serve.mjs');
}

export interface ServeOptions {
  data: string;
  port: number;
  /** Folder of a built page. */
  site: string;
}

export interface ServedProgram {
  origin: string;
  pid: number;
  /** As a loss of power to this process would: nothing of it runs any more once this resolves. */
  kill(): Promise<void>;
  /** As Ctrl+C would. */
  stop(): Promise<void>;
}

export async function serveProgram(options: ServeOptions): Promise<ServedProgram> {
  const plain = await (script ??= plainScript());
  const child = spawn(process.execPath, [plain, JSON.stringify(options)], {
    stdio: ['pipe', 'pipe', 'inherit'],
  });
  const ended = new Promise<void>((resolve) => child.on('exit', () => resolve()));
  await untilServing(child);
  const end = async (signal: NodeJS.Signals): Promise<void> => {
    child.kill(signal);
    await ended;
  };
  return {
    origin: `http://127.0.0.1:${options.port}`,
    pid: child.pid ?? 0,
    kill: () => end('SIGKILL'),
    stop: () => end('SIGTERM'),
  };
}

function untilServing(child: ChildProcess): Promise<void> {
  return new Promise((resolve, reject) => {
    const fail = (why: string): void => {
      clearTimeout(alarm);
      child.kill('SIGKILL');
      reject(new Error(`the server ${why}`));
    };
    const alarm = setTimeout(() => fail(`did not start within ${startMs} ms`), startMs);
    const tooSoon = (code: number | null): void => fail(`ended with code ${code}`);
    child.on('exit', tooSoon);
    child.stdout?.setEncoding('utf8').on('data', (text: string) => {
      if (!text.includes('serving')) return;
      clearTimeout(alarm);
      child.off('exit', tooSoon);
      resolve();
    });
  });
}

/** The database belongs to the address, port included: one is chosen for all openings of a test. */
export function freePort(): Promise<number> {
  return new Promise((resolve, reject) => {
    const probe = createServer();
    probe.on('error', reject);
    probe.listen({ host: '127.0.0.1', port: 0 }, () => {
      const { port } = probe.address() as AddressInfo;
      probe.close(() => resolve(port));
    });
  });
}
