export const hostileNames = [
  'CON',
  'con.json',
  'LPT1.tar.gz',
  'nul .txt',
  '..',
  '../../etc/passwd',
  '..\\..\\Windows\\win.ini',
  'C:\\bag.pdf',
  'trailing dots...',
  'trailing space ',
  '.hidden',
  'bag\u202Efdp.exe',
  'a<b>c:d"e|f?g*h.csv',
  'new\nline\0null.txt',
  'x'.repeat(300) + '.json',
  '½'.repeat(300),
  '\uD800lone.txt',
  '.pdf',
  '   ',
  '//server/share',
];

/** Windows' published rules, the strictest of the systems the program runs on. */
export function isSafeOnWindows(name: string): boolean {
  const device = /^(?:con|prn|aux|nul|com[0-9¹²³]|lpt[0-9¹²³])\s*(?:\.|$)/i;
  return (
    name.length > 0 &&
    Buffer.byteLength(name) <= 220 &&
    !/\p{Cs}/u.test(name) &&
    // eslint-disable-next-line no-control-regex -- control signs are what is looked for
    !/[<>:"/\\|?*\u0000-\u001F\u202A-\u202E]/.test(name) &&
    !/[. ]$/.test(name) &&
    !name.startsWith('.') &&
    !device.test(name)
  );
}
