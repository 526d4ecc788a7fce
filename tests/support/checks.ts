import { binOf } from './installed.ts';
import { type Ended, runNode, runProgram } from './command.ts';
import { checked, type Result } from './result.ts';

/** The four type-check projects: each room sees only what it may. */
const PROJECTS = ['renderer/engine', 'renderer', 'electron', 'tests'];

const textOf = ({ text, outOfTime }: Ended, limitS: number) =>
  outOfTime ? `${text}\nStopped: it ran longer than ${limitS} s.` : text;

/** Runs a script of package.json by the npm that started us, so that what is checked is what the script says. */
function runScript(script: string, limitS: number): Promise<Ended> {
  const npm = process.env['npm_execpath'];
  const args = ['run', '--silent', script];
  if (npm?.endsWith('.js') === true) return runNode([npm, ...args], limitS);
  return runProgram(process.platform === 'win32' ? 'npm.cmd' : 'npm', args, limitS);
}

/**
 * Every project is compiled, also after one that fails, by the compiler that is a program of the machine: the one in
 * JavaScript, which other tools ask about types, takes five times as long.
 */
export async function checkTypes(): Promise<Result> {
  const limitS = 240;
  const texts: string[] = [];
  for (const project of PROJECTS) {
    const ended = await runNode([binOf('typescript-native', 'tsc'), '-p', project, '--pretty', 'false'], limitS);
    if (ended.code !== 0) texts.push(`tsc -p ${project}\n${textOf(ended, limitS)}`);
  }
  return checked(texts.length === 0, `${PROJECTS.length} projects`, texts.join('\n'));
}

/**
 * A script that passes when it ends with 0; with `looked` (one group, a number) it must also say that it looked at
 * something. A check of no file says "no fault" in the same voice as a check of all of them.
 */
export async function checkScript(script: string, looked: RegExp | null, limitS = 180): Promise<Result> {
  const ended = await runScript(script, limitS);
  const text = textOf(ended, limitS);
  const [detail = '', count = '0'] = (looked === null ? null : looked.exec(text)) ?? [];
  if (looked !== null && ended.code === 0 && Number(count) === 0) {
    return checked(false, 'looked at nothing', `${text}\nThe check passed, and looked at nothing.`);
  }
  return checked(ended.code === 0, detail.replace(/^\D*/, ''), text);
}
