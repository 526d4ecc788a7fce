/** The licences of everything that is bundled into the program, as their owners ask it to be passed on. */
import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';

interface Locked {
  dev?: boolean;
  optional?: boolean;
}

const licenceFile = /^(?:licen[cs]e|copying|notice|ofl)(?:[.-].*)?$/i;

/** One entry for each package of the lock that ships; one without a licence's text keeps its licence's name. */
export function noticesOf(root: string): string {
  const lock = JSON.parse(readFileSync(join(root, 'package-lock.json'), 'utf8')) as {
    packages: Record<string, Locked>;
  };
  const shipped = Object.entries(lock.packages).filter(
    ([path, { dev = false }]) => path !== '' && !dev && existsSync(join(root, path, 'package.json')),
  );
  const entries = shipped.map(([path]) => noticeOf(join(root, path)));
  return `Bagwright is bundled with these packages.\n\n${entries.join('\n')}`;
}

function noticeOf(folder: string): string {
  const { name, version, license } = JSON.parse(readFileSync(join(folder, 'package.json'), 'utf8')) as {
    name: string;
    version: string;
    license: string;
  };
  const texts = readdirSync(folder)
    .filter((file) => licenceFile.test(file))
    .toSorted()
    .map((file) => readFileSync(join(folder, file), 'utf8').trim());
  return `${'='.repeat(72)}\n${name} ${version} (${license})\n\n${texts.join('\n\n')}\n`;
}
