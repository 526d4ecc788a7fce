/** Ways of starting Electron that hand its inside to whoever connects. The program does not start with any of them. */
const switches = [
  'remote-debugging-port',
  'remote-debugging-pipe',
  'remote-debugging-address',
  'remote-allow-origins',
  'inspect',
  'inspect-brk',
  'inspect-brk-node',
  'inspect-port',
  'inspect-wait',
  'debug-port',
  'disable-web-security',
  'load-extension',
  'host-resolver-rules',
  'ignore-certificate-errors',
];

/** The first one found, as the user would write it, or null. */
export function forbiddenSwitch(
  given: readonly string[],
  givenToNode: readonly string[],
  environment: Readonly<Record<string, string | undefined>>,
  hasSwitch: (name: string) => boolean,
): string | null {
  // Node reads its own options from the environment as well.
  const words = [...given, ...givenToNode, ...(environment['NODE_OPTIONS'] ?? '').split(/\s+/)];
  const found = switches.find(
    (name) => hasSwitch(name) || words.some((word) => new RegExp(`^--?${name}(?:=|$)`, 'i').test(word)),
  );
  return found === undefined ? null : `--${found}`;
}
