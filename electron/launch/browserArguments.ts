/** How the program starts a browser: for itself alone, and unable to reach anything but itself. */

/** Whether Chromium must run without its sandbox: as root on Linux it refuses to start with one. */
export function mustDropSandbox(platform: NodeJS.Platform = process.platform, userId = process.getuid?.()): boolean {
  return platform === 'linux' && userId === 0;
}

/**
 * No look-ups, updates, sync or reports. Whatever is left goes to a proxy that is not there: port 9 takes an
 * administrator to open, and Chromium asks no proxy for addresses of the machine itself.
 */
export const quietArguments: readonly string[] = [
  '--no-first-run',
  '--no-default-browser-check',
  '--disable-background-networking',
  '--disable-component-update',
  '--disable-breakpad',
  '--disable-crash-reporter',
  '--disable-domain-reliability',
  '--disable-extensions',
  '--disable-quic',
  '--disable-sync',
  '--metrics-recording-only',
  '--no-pings',
  '--proxy-server=http://127.0.0.1:9',
];

export function windowArguments(address: string, profile: string, dropSandbox = mustDropSandbox()): string[] {
  return [
    `--app=${address}`,
    `--user-data-dir=${profile}`,
    '--window-size=1280,860',
    ...quietArguments,
    // An ordinary user's browser keeps its sandbox; root's on Linux would not start with it.
    ...(dropSandbox ? ['--no-sandbox'] : []),
  ];
}
