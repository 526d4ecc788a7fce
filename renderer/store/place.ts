/** Where in the window the hand is. It stands in the address, so that Back, links and a reload work. */
export type Place =
  | { at: 'first' }
  | { at: 'steps'; step?: string }
  | { at: 'bag'; outing?: string; line?: string }
  | { at: 'manifest'; outing?: string };

export type PlaceName = Place['at'];

export function placeAddress(place: Place): string {
  if (place.at === 'first') return '#/';
  const within = place.at === 'steps' ? [place.step] : place.at === 'bag' ? [place.outing, place.line] : [place.outing];
  const tail = within.flatMap((part) => (part === undefined ? [] : [encodeURIComponent(part)]));
  return ['#', place.at, ...tail].join('/');
}

export function readPlace(address: string): Place {
  const [, at = '', ...tail] = address.split('/');
  const [first, second] = tail.map(decoded);
  if (at === 'steps') return { at, ...(first === undefined ? {} : { step: first }) };
  if (at === 'manifest') return { at, ...(first === undefined ? {} : { outing: first }) };
  if (at === 'bag')
    return { at, ...(first === undefined ? {} : { outing: first }), ...(second === undefined ? {} : { line: second }) };
  return { at: 'first' };
}

function decoded(text: string): string | undefined {
  if (text === '') return undefined;
  try {
    return decodeURIComponent(text);
  } catch {
    return undefined;
  }
}
