import { existsSync } from 'node:fs';
import { delimiter, join } from 'node:path';
import { findBrowser, thisMachine } from '../../electron/launch/findBrowser.ts';
import { runProgram } from './command.ts';
import { checked, type Result } from './result.ts';

/** The variable by which every suite is told which browser to drive. */
const browserPathVariable = 'CHROMIUM_PATH';

const isOnPath = (program: string) =>
  (process.env['PATH'] ?? '').split(delimiter).some((folder) => existsSync(join(folder, program)));

const mayInstall = () => process.platform === 'linux' && process.getuid?.() === 0 && isOnPath('apt-get');

function presentBrowser(): string | null {
  const chosen = process.env[browserPathVariable];
  if (chosen !== undefined && chosen !== '') return existsSync(chosen) ? chosen : null;
  return findBrowser(thisMachine);
}

async function install(packages: readonly string[]): Promise<string> {
  const environment = { DEBIAN_FRONTEND: 'noninteractive' };
  const update = await runProgram('apt-get', ['update'], 120, environment);
  const args = ['install', '-y', '--no-install-recommends', ...packages];
  return update.text + (await runProgram('apt-get', args, 300, environment)).text;
}

/**
 * Finds a browser of the Chromium family and names it in CHROMIUM_PATH. On Debian, as root, it installs what is missing:
 * the browser, and poppler's programs, which the tests of printed pages read PDFs with.
 */
export async function ensureBrowser(): Promise<Result> {
  const missing = [
    ...(presentBrowser() === null ? ['chromium'] : []),
    ...(isOnPath('pdftotext') && isOnPath('pdftoppm') ? [] : ['poppler-utils']),
  ];
  const text = missing.length > 0 && mayInstall() ? await install(missing) : '';
  const path = presentBrowser();
  if (path === null) {
    const how = [
      `No browser of the Chromium family was found${process.env[browserPathVariable] ? ` at ${browserPathVariable}` : ''}.`,
      'Install Chromium, Chrome or Edge (Debian, as root: apt-get update && apt-get install -y chromium),',
      `or give its path: ${browserPathVariable}=/path/to/chromium npm test`,
    ];
    return checked(false, '', `${text}\n${how.join('\n')}`);
  }
  process.env[browserPathVariable] = path;
  return checked(true, path, '');
}
