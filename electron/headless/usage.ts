import { commands } from './registry.ts';

/** What `--help` prints: every command, or one. */
export function usageText(name?: string): string {
  const listed = Object.entries(commands).filter(([command]) => name === undefined || command === name);
  return [
    'npm run -s bagwright -- COMMAND …',
    '',
    ...listed.flatMap(([command, entry]) => [`  ${command} ${entry.usage}`, `      ${entry.summary}`]),
    '',
    'Results go to standard output as JSON, diagnostics to standard error.',
    'Exit 0: done. Exit 1: done, and the result says what does not conform. Exit 2: bad input, nothing was written.',
    '',
    'The values support a qualified person’s decision; they do not replace the approved drawing or procedure. Verify before use.',
    '',
  ].join('\n');
}
