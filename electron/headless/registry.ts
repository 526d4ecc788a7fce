import type { CommandEntry } from './command.ts';

/** Every command, in the order the usage text lists them. */
export const commands: Record<string, CommandEntry> = {
  convert: {
    usage: '"<quantity>" <unit>',
    summary: 'a quantity in another unit of its kind',
    load: async () => (await import('./commands/convert.ts')).convert,
  },
  thread: {
    usage: '"<designation>"',
    summary: 'what a thread designation means, with its diameters and stress area',
    load: async () => (await import('./commands/thread.ts')).thread,
  },
  bag: {
    usage: 'PLAN.json [--minimise mass|count|volume] [--time-limit SECONDS] [--format json|csv|text]',
    summary: 'the least bag that does every step of a plan, proven, or what hinders it',
    load: async () => (await import('./commands/bag.ts')).bag,
  },
  batch: {
    usage: 'FILE.jsonl',
    summary: 'one command a line, as a JSON array of the command and its arguments; "-" reads standard input',
    load: async () => (await import('./commands/batch.ts')).batch,
  },
};
