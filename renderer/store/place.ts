/** Where in the window the hand is. It stands in the address, so that Back, links and a reload work. */
export type Place =
  | { at: 'first' }
  /** The front sheet of the task at hand: what it is, what is still open. */
  | { at: 'front' }
  | { at: 'steps'; step?: string }
  | { at: 'outings'; outing?: string }
  | { at: 'bag'; outing?: string; line?: string }
  | { at: 'manifest'; outing?: string }
  /** What comes back of an outing; `list` as it is printed. */
  | { at: 'return'; outing?: string; sheet?: string }
  /** What was done with a frozen manifest, by its number. */
  | { at: 'record'; number?: string }
  /** What is missing: of the task at hand, or of `all`; the one in hand by its key; `report` as it is printed. */
  | { at: 'discrepancies'; of?: string; discrepancy?: string }
  /** Step cards of an outing: of one role, or of all. */
  | { at: 'cards'; outing?: string; role?: string }
  /** Packing of an outing by its frozen manifest: a bag of it; `again` counts it a second time, `issue` lets the outing go. */
  | { at: 'pack'; outing?: string; bag?: string; doing?: string }
  /** Frozen manifests by their numbers, `open` for the task as it stands: one, and what it is held against. */
  | { at: 'revisions'; number?: string; other?: string }
  /** What is printed of a frozen manifest: `manifest` or `cards` of an outing, or `compared` with another number. */
  | { at: 'frozen'; number?: string; sheet?: string; of?: string; role?: string }
  /** Keys of a list of callouts and of one of its rows. */
  | { at: 'callouts'; list?: string; callout?: string }
  /** Keys of a list of records and of one of its rows. */
  | { at: 'asrun'; list?: string; record?: string }
  /** What is open of the task; with a row the one that is in hand. */
  | { at: 'findings'; row?: string }
  /** Keys of the records: codes are unique within their shelf or site only. */
  | { at: 'catalog'; shelf?: string; item?: string }
  | { at: 'sites'; site?: string; interface?: string }
  | { at: 'watchouts'; watchOut?: string }
  /** Labels: what they are for, and which one of those. */
  | { at: 'labels'; from?: string; of?: string }
  /** What is kept beside the journal; with one of it by its name, what that would bring back. */
  | { at: 'snapshots'; restore?: string }
  /** Two kits held against each other, each by its words in an address. */
  | { at: 'kits'; mine?: string; theirs?: string }
  /** A table of the handbook and a row in it, by its first column; or, with the table `thread`, all that is held of one thread. */
  | { at: 'handbook'; table?: string; row?: string }
  /** A computation of the bench; or a result of it that was kept. */
  | { at: 'bench'; sheet?: string; note?: string };

export type PlaceName = Place['at'];

/** What each place's address carries after its name, in order. */
const parts = {
  first: [],
  front: [],
  steps: ['step'],
  outings: ['outing'],
  bag: ['outing', 'line'],
  manifest: ['outing'],
  cards: ['outing', 'role'],
  return: ['outing', 'sheet'],
  record: ['number'],
  discrepancies: ['of', 'discrepancy'],
  pack: ['outing', 'bag', 'doing'],
  revisions: ['number', 'other'],
  frozen: ['number', 'sheet', 'of', 'role'],
  callouts: ['list', 'callout'],
  asrun: ['list', 'record'],
  findings: ['row'],
  catalog: ['shelf', 'item'],
  sites: ['site', 'interface'],
  watchouts: ['watchOut'],
  labels: ['from', 'of'],
  snapshots: ['restore'],
  kits: ['mine', 'theirs'],
  handbook: ['table', 'row'],
  bench: ['sheet', 'note'],
} as const satisfies Record<PlaceName, readonly string[]>;

export function placeAddress(place: Place): string {
  if (place.at === 'first') return '#/';
  const given: Partial<Record<string, string>> = place;
  const tail = parts[place.at].map((name) => given[name]);
  const end = tail.findIndex((part) => part === undefined);
  const said = (end === -1 ? tail : tail.slice(0, end)).map((part) => encodeURIComponent(part ?? ''));
  return ['#', place.at, ...said].join('/');
}

export function readPlace(address: string): Place {
  const [, at = '', ...tail] = address.split('/');
  if (!isPlaceName(at)) return { at: 'first' };
  const place: Record<string, string> = { at };
  for (const [index, name] of parts[at].entries()) {
    const part = decoded(tail[index] ?? '');
    if (part === undefined) break;
    place[name] = part;
  }
  return place as Place;
}

function isPlaceName(text: string): text is PlaceName {
  return Object.hasOwn(parts, text);
}

function decoded(text: string): string | undefined {
  if (text === '') return undefined;
  try {
    return decodeURIComponent(text);
  } catch {
    return undefined;
  }
}
