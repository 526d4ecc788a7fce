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
  socket: {
    usage:
      '"<thread>" --head hex|heavy-hex|nut|twelve-point|hex-socket|hexalobular [--standard "<number>"]; hexalobular: "T30" for the thread',
    summary: 'the socket of a head, how its opening fits, and the sizes near it',
    load: async () => (await import('./commands/socket.ts')).socket,
  },
  limits: {
    usage: '"<thread>" [--locking "<document>"] [--tightening "<torque>" --running "<torque>"]',
    summary:
      'running, breakaway and reuse limits of a self-locking fastener, by one document or by all that have the size',
    load: async () => (await import('./commands/limits.ts')).limits,
  },
  torquetable: {
    usage: '"<thread>" [--document "<number>"]',
    summary: 'every published torque band held for a thread',
    load: async () => (await import('./commands/torquetable.ts')).torquetable,
  },
  engagement: {
    usage: '--file FILE.json',
    summary: 'shear areas of engaged threads, the length needed, and what fails first',
    load: async () => (await import('./commands/engagement.ts')).engagement,
  },
  setting: {
    usage: '--file SETTING.json',
    summary:
      'what to set a torque tool to for a callout, and whether the torque then applied conforms; "-" reads standard input',
    load: async () => (await import('./commands/setting.ts')).setting,
  },
  preload: {
    usage: '--file joint.json',
    summary: 'torque, preload, their range and the stresses of one joint; "-" reads standard input',
    load: async () => (await import('./commands/preload.ts')).preload,
  },
  callouts: {
    usage: 'FILE.csv [--skip-bad] [--format json|csv|text]',
    summary:
      'torque callouts of a table judged by every rule, with the numbers and the source of each finding; "-" reads standard input',
    load: async () => (await import('./commands/callouts.ts')).callouts,
  },
  asrun: {
    usage: 'FILE.csv --callouts FILE.csv [--tools FILE.csv] [--skip-bad] [--format json|csv|text]',
    summary: 'what was recorded, judged against its callouts, with the wear of locking torque and the tools to trace',
    load: async () => (await import('./commands/asrun.ts')).asrun,
  },
  bag: {
    usage: 'PLAN.json [--minimise mass|count|volume] [--time-limit SECONDS] [--reasons] [--format json|csv|text]',
    summary: 'the least bag that does every step of a plan, proven, or what hinders it',
    load: async () => (await import('./commands/bag.ts')).bag,
  },
  verify: {
    usage: 'FILE.json|FILE.snapshot|FOLDER [--head "[NUMBER] HASH"]',
    summary:
      'whether a manifest with its record, or a journal, is what its hashes say, from the first byte; a head as it was printed finds a cut end',
    load: async () => (await import('./commands/verify.ts')).verify,
  },
  batch: {
    usage: 'FILE.jsonl',
    summary: 'one command a line, as a JSON array of the command and its arguments; "-" reads standard input',
    load: async () => (await import('./commands/batch.ts')).batch,
  },
};
