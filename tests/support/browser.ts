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

/** The path the user gave, '' where none was. */
const chosenPath = () => process.env[browserPathVariable] ?? '';

function presentBrowser(): string | null {
  const chosen = chosenPath();
  if (chosen !== '') return existsSync(chosen) ? chosen : null;
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
    // A path that was given and leads nowhere is said, not worked round.
    ...(presentBrowser() === null && chosenPath() === '' ? ['chromium'] : []),
    ...(isOnPath('pdftotext') && isOnPath('pdftoppm') ? [] : ['poppler-utils']),
  ];
  const text = missing.length > 0 && mayInstall() ? await install(missing) : '';
  const path = presentBrowser();
  if (path === null) {
    const how = [
      chosenPath() === ''
        ? 'No browser of the Chromium family was found.'
        : `${browserPathVariable} is ${chosenPath()}, and nothing is there.`,
      'Install Chromium, Chrome or Edge (Debian, as root: apt-get update && apt-get install -y chromium),',
      `or give its path: ${browserPathVariable}=/path/to/chromium npm test`,
    ];
    return checked(false, '', `${text}\n${how.join('\n')}`);
  }
  process.env[browserPathVariable] = path;
  return checked(true, path, '');
}
