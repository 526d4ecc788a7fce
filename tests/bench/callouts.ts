/**
 * How long 100 000 callouts take from a CSV file to the whole answer: `npx tsx tests/bench/callouts.ts [count] [seed]`. First by stage
 * in this process, then the command itself in one of its own, by the clock and by processor time.
 */
import { spawnSync } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync, statSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { calloutsJson, judgeCallouts, readCallouts } from '../../renderer/engine/callout/index.ts';
import { decodeBytes } from '../../renderer/engine/sheet/decodeBytes.ts';
import { splitTable } from '../../renderer/engine/sheet/splitTable.ts';
import { roundNominal } from '../../renderer/engine/units/index.ts';
import { manyCallouts } from './manyCallouts.ts';

const count = Number(process.argv[2] ?? 100_000);
const seed = Number(process.argv[3] ?? 20261126);
const aimS = 5;

const say = (text: string): void => void process.stdout.write(`${text}\n`);

function staged<T>(name: string, run: () => T): T {
  const [began, used] = [performance.now(), process.cpuUsage()];
  const result = run();
  const { user, system } = process.cpuUsage(used);
  say(`  ${name}: ${seconds((performance.now() - began) / 1000)} s, processor ${seconds((user + system) / 1e6)} s`);
  return result;
}

function seconds(value: number): string {
  return roundNominal(value, 2);
}

const folder = mkdtempSync(join(tmpdir(), 'callouts-'));
try {
  const file = join(folder, 'callouts.csv');
  writeFileSync(file, manyCallouts(count, seed));
  say(`${count} callouts, seed ${seed}, ${statSync(file).size} bytes`);

  say('In this process, each stage by itself');
  const bytes = staged('read the file', () => readFileSync(file));
  const { text } = staged('decode', () => decodeBytes(bytes));
  staged('take apart', () => splitTable(text, (names) => names.length));
  staged('read the callouts (decode and take apart in it)', () => readCallouts({ content: bytes }));
  const result = staged('judge (reading in it)', () => judgeCallouts({ content: bytes, skipBad: false }));
  const length = staged('write JSON', () => {
    let sum = 0;
    for (const piece of calloutsJson(result)) sum += piece.length;
    return sum;
  });
  say(`  ${length} characters; ${JSON.stringify(result.summary)}`);

  say('The command, from its start to its end, its answer written to a file');
  const began = performance.now();
  const answer = join(folder, 'answer.json');
  const command = ['npm', 'run', '-s', 'bagwright', '--', 'callouts', file];
  const ran = spawnSync('sh', ['-c', `"$@" > "${answer}"; echo "exit $?"; times`, 'sh', ...command], {
    encoding: 'utf8',
  });
  const tookS = (performance.now() - began) / 1000;
  const [, exit = '?'] = /exit (\d+)/.exec(ran.stdout) ?? [];
  // The second line of `times` is of the children: user and system time.
  const used = [...(ran.stdout.trim().split('\n').at(-1) ?? '').matchAll(/(\d+)m([\d.]+)s/g)];
  const usedS = used.reduce((sum, [, minutes, rest]) => sum + 60 * Number(minutes) + Number(rest), 0);
  say(`  exit ${exit}, ${statSync(answer).size} bytes: ${seconds(tookS)} s, processor ${seconds(usedS)} s`);
  say(`  aim: at most ${aimS} s in all: ${tookS <= aimS ? 'holds' : 'MISSED'}`);
  if (ran.stderr !== '') say(ran.stderr.slice(0, 1000));
} finally {
  rmSync(folder, { recursive: true });
}
