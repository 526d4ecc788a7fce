/** A path as refusals write it: catalog.sockets[2].length; a key that is no plain word stands quoted in brackets. */
export function fieldText(path: readonly PropertyKey[]): string {
  return path.reduce((field: string, step) => fieldWithin(field, typeof step === 'number' ? step : String(step)), '');
}

/** The path of one step further in. */
export function fieldWithin(field: string, step: string | number): string {
  if (typeof step === 'number') return `${field}[${step}]`;
  if (!/^[\p{L}_$][\p{L}\p{N}_$-]*$/u.test(step)) return `${field}[${JSON.stringify(step)}]`;
  return field === '' ? step : `${field}.${step}`;
}

/** The last step of a path: .name, [2] or ["odd name"]. */
const lastStep = /(?:(?:^|\.)[^.[\]]+|\[(?:\d+|"(?:[^"\\]|\\.)*")\])$/;

/** The path of the object or list a field stands in; empty at the top. */
export function fieldAbove(field: string): string {
  return lastStep.test(field) ? field.replace(lastStep, '') : '';
}
