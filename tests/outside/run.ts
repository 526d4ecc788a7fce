/**
 * What the program touches outside: `npx tsx tests/outside/run.ts`, on Linux as root, with strace. A portable copy is started
 * by `npm start`, opened in its window, has a PDF made, and is ended, in a network of its own that has nothing but loopback. Every call of
 * the system that makes a file or names an address is looked at. `e2e` behind it runs the stage e2e in
 * such a network instead, or those of its files that are named.
 */
import { spawnSync } from 'node:child_process';
import { existsSync, mkdtempSync, readdirSync, readFileSync, realpathSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { portableCopy, type PortableCopy } from '../e2e/support/portableCopy.ts';
import { workIn } from '../e2e/support/portableRun.ts';

const inside = '--inside';
const self = fileURLToPath(import.meta.url);
const makes = 'openat,open,creat,mkdir,mkdirat,rename,renameat,renameat2,symlink,symlinkat,link,linkat,mknod,mknodat';
const speaks = 'connect,sendto,sendmsg,sendmmsg';

/** The paths of files made, each once, without those of the copy and of what is no file of a disk. */
function madeOutside(trace: string, copy: PortableCopy): string[] {
  const ours = [copy.folder, realpathSync(copy.folder)];
  const isMade = (line: string): boolean =>
    /\b(?:creat|mkdir|mkdirat|rename\w*|symlink\w*|link\w*|mknod\w*)\(|O_CREAT/.test(line) && !/= -1 /.test(line);
  const paths = trace.split('\n').flatMap((line) => {
    if (!isMade(line)) return [];
    const [last] = [...line.matchAll(/"([^"]*)"/g)].map(([, path = '']) => path).slice(-1);
    return last === undefined || !last.startsWith('/') ? [] : [last];
  });
  const noFile = /^\/(?:proc|dev\/(?:null|tty|shm))(?:\/|$)/;
  return [...new Set(paths)].filter((path) => !noFile.test(path) && !ours.some((folder) => path.startsWith(folder)));
}

/** The addresses that something was sent to, or a connection was asked of, without the machine's own; each once. */
function addressesOutside(trace: string): string[] {
  // A datagram's socket is "connected" to ask the system for the way there; nothing is sent by that.
  const sends = trace.split('\n').filter((line) => /\bsend(?:to|m?msg)\(|\bconnect\((?!\d+<UDP)/.test(line));
  const named = sends.flatMap((line) => [
    ...line.matchAll(/inet_addr\("([^"]+)"\)|inet_pton\(AF_INET6, "([^"]+)"|->\[?([\da-f.:]+?)\]?:\d+\]>/g),
  ]);
  const all = new Set(named.map(([, four, six, peer]) => four ?? six ?? peer ?? ''));
  return [...all].filter((address) => !/^127\.|^::1$|^0\.0\.0\.0$|^::$|^::ffff:127\./.test(address));
}

async function traced(): Promise<number> {
  const under = mkdtempSync(join(tmpdir(), 'bagwright-outside-'));
  try {
    const copy = await portableCopy(under);
    const file = join(under, 'trace');
    const { pdf } = await workIn(copy, [
      ...(['strace', '-f', '-qq', '-yy', '-s', '300', '-e', `trace=${makes},${speaks}`, '-o', file] as const),
      ...['npm', 'start', '--', '--browser'],
    ]);
    const trace = readFileSync(file, 'utf8');
    // npm itself makes its own empty folder, which is no file, before it reads where it is told not to write.
    const npms = join(copy.environment['HOME'] ?? '', '.npm');
    const files = [...new Set([...madeOutside(trace, copy), ...copy.strayFiles()])].filter((path) => path !== npms);
    files.push(...(existsSync(npms) ? readdirSync(npms).map((name) => join(npms, name)) : []));
    const addresses = addressesOutside(trace);
    const say = (words: string): void => void process.stdout.write(`${words}\n`);
    say(`${trace.split('\n').length} calls traced; the PDF begins with ${pdf}`);
    say(`Files made outside the program's folder: ${files.length}${files.map((path) => `\n  ${path}`).join('')}`);
    say(`Addresses beyond this machine: ${addresses.length}${addresses.map((one) => `\n  ${one}`).join('')}`);
    return files.length + addresses.length === 0 && pdf === '%PDF-' ? 0 : 1;
  } finally {
    rmSync(under, { recursive: true, force: true });
  }
}

function withoutNetwork(command: readonly string[]): number {
  const script = 'ip link set lo up && exec "$@"';
  return spawnSync('unshare', ['-n', 'sh', '-c', script, 'sh', ...command], { stdio: 'inherit' }).status ?? 1;
}

const given = process.argv.slice(2);
if (given.includes(inside)) process.exitCode = await traced();
else if (given[0] === 'e2e') {
  const vitest = ['npx', 'vitest', '--config', 'tests/vitest.config.ts', 'run', '--project', 'e2e'];
  process.exitCode = withoutNetwork([...vitest, ...given.slice(1)]);
} else process.exitCode = withoutNetwork([process.execPath, '--import', 'tsx', self, inside]);
