/** What a spreadsheet would run, or take for something else than the text it is. */
const starts = ['=', '+', '-', '@', '＝', '＋', '－', '＠'];
const calls = ['1+1', `cmd|' /C calc'!A0`, 'HYPERLINK("http://example.invalid","x")'];

export const dangerous: readonly string[] = [
  ...starts.flatMap((start) => calls.map((call) => `${start}${call}`)),
  ...starts.map((start) => ` ${start}1+1`),
  ...starts.map((start) => `\t${start}1+1`),
  '\t1+1',
  '-2+3+cmd',
  `"=1+1"`,
  `'=1+1`,
  `''=1+1`,
  '=1+1\nsecond line',
  '+45 N·m or so',
  '-',
  '@SUM(A1:A9)',
  '=DDE("cmd";"/C calc";"x")',
  '=IMPORTXML("http://example.invalid/","//a")',
  'text, with "quotes"; and =1+1',
  '00123',
  '3/4',
  '12E5',
  '_x000D_',
  '{=1+1}',
  '\u00a0=1+1',
];

export const hostileNames: readonly string[] = [
  ...['CON', 'con.txt', 'NUL', '..', '../../etc/passwd', 'a/b\\c', 'name.', 'name ', '.hidden', 'x'.repeat(300)],
  ...['a:b|c?d*e', '"quoted"', 'line\nbreak', '\u202etxt.exe', 'na\u0000me', '<img src=x>'],
];
