const PERMISSIVE = new Set([
  '0BSD',
  'Apache-2.0',
  'BSD-2-Clause',
  'BSD-3-Clause',
  'BlueOak-1.0.0',
  'CC0-1.0',
  'ISC',
  'MIT',
  'MIT-0',
  'OFL-1.1',
  'Unlicense',
  'Zlib',
]);

/** Whether a licence expression asks for no more than to be named: one side of each OR, every side of an AND. */
export function isPermissive(expression: string): boolean {
  return expression
    .replace(/^\((.*)\)$/, '$1')
    .split(' OR ')
    .some((choice) => choice.split(/ AND /i).every((licence) => PERMISSIVE.has(licence.trim())));
}
