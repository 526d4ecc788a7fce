/**
 * One worker of the run: keeps a test runner warm over a copy of the tree, with every mutant in its text, and runs what it
 * is sent. A process of its own, so that it can be stopped in the middle of an endless loop.
 */
import { readFileSync } from 'node:fs';
import { join, relative, sep } from 'node:path';
import { createVitest, type TestModule, type TestProject, type TestSpecification, type Vitest } from 'vitest/node';
import { instrumented, type Numbered } from './instrument.ts';
import type { On, Reached } from './switch.ts';

/** Some tests to be run, up to the first that fails. */
export interface Order {
  /** On from the beginning; -1 for none. */
  on: On;
  /** In this order; `tests` are the runner's ids, null for all of the file. */
  files: { path: string; tests: string[] | null }[];
  /** Mutants to be tried in each test once it has passed, by the test's id. */
  trials?: Record<string, On[]>;
  /** Where the trials are told. */
  log?: string;
}

export interface TestSeen {
  id: string;
  name: string;
  failed: boolean;
  durationMs: number;
  reached: Reached;
}

/** What came of an order. */
export interface Outcome {
  files: FileSeen[];
  /** What went wrong outside every test; empty where nothing did. */
  fault: string;
}

/** What came of one test file. */
export interface FileSeen {
  path: string;
  /** It could not be read, or a test of it failed. */
  failed: boolean;
  /** From the start of reading it to its end. */
  durationMs: number;
  tests: TestSeen[];
  /** What it said of its first failure. */
  reason: string;
}

const nothing: Reached = { inTest: [], before: [] };

function seen(module: TestModule, root: string): FileSeen {
  const tests = [...module.children.allTests()].map((test): TestSeen => ({
    id: test.id,
    name: test.fullName,
    failed: test.result().state === 'failed',
    durationMs: test.diagnostic()?.duration ?? 0,
    reached: test.meta().reached ?? nothing,
  }));
  const times = module.diagnostic();
  const fault = [...module.children.allTests()].find((test) => test.result().state === 'failed');
  const first = (fault?.result().errors ?? module.errors())[0]?.message ?? '';
  return {
    path: relative(root, module.moduleId).split(sep).join('/'),
    failed: module.state() === 'failed',
    durationMs: times.collectDuration + times.duration + times.setupDuration,
    tests,
    reason: `${fault === undefined ? '' : `${fault.fullName}: `}${first.split('\n')[0] ?? ''}`,
  };
}

async function start(root: string, mutants: readonly Numbered[]): Promise<Vitest> {
  const inFile = (path: string) => mutants.filter(({ file }) => join(root, file) === path);
  const inOrder = class {
    sort = async (files: TestSpecification[]) => files;
    shard = async (files: TestSpecification[]) => files;
  };
  const vitest = await createVitest(
    'test',
    {
      config: false,
      root,
      watch: false,
      include: ['tests/**/*.test.ts'],
      environment: 'node',
      testTimeout: 60_000,
      hookTimeout: 60_000,
      setupFiles: [join(root, 'tests', 'mutants', 'engine', 'switch.ts')],
      provide: { switched: { mutants: mutants.length, on: { mutant: -1, limit: 0 }, trials: {}, log: '' } },
      pool: 'threads',
      isolate: false,
      maxWorkers: 1,
      bail: 1,
      sequence: { sequencer: inOrder },
      reporters: [{}],
    },
    {
      root,
      cacheDir: join(root, 'cache'),
      plugins: [
        {
          name: 'engine-mutants',
          enforce: 'pre',
          load(id) {
            const here = inFile(id);
            return here.length === 0 ? null : { code: instrumented(readFileSync(id, 'utf8'), here), map: null };
          },
        },
      ],
    },
  );
  await vitest.standalone();
  return vitest;
}

async function carryOut(vitest: Vitest, root: string, mutants: number, order: Order): Promise<Outcome> {
  const project = vitest.projects[0] as TestProject;
  const { on, files, trials = {}, log = '' } = order;
  project.provide('switched', { mutants, on, trials, log });
  const specifications = files.map(({ path, tests }) =>
    project.createSpecification(join(root, path), tests === null ? {} : { testIds: tests }),
  );
  for (const kept of [vitest.state.filesMap, vitest.state.idMap, vitest.state.errorsSet]) kept.clear();
  const { testModules, unhandledErrors } = await vitest.runTestSpecifications(specifications);
  return {
    files: testModules.map((module) => seen(module, root)),
    fault: unhandledErrors.length === 0 ? '' : String((unhandledErrors[0] as { message?: unknown }).message),
  };
}

const [root = '', list = ''] = process.argv.slice(2);
const mutants = JSON.parse(readFileSync(list, 'utf8')) as Numbered[];
const started = start(root, mutants);
process.on('message', async (order: Order) => {
  process.send?.(await carryOut(await started, root, mutants.length, order));
});
process.on('disconnect', () => process.exit());
