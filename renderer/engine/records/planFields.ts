/**
 * The fields of a kept record that a plan file has too, under the record's names. An item's code is the file's `id`, an
 * extension's form the file's `kind`; everything else has the same name and form in both.
 */
const described = ['name', 'notes'] as const;
const carried = [...described, 'mass', 'volume', 'size', 'tethers', 'onHand'] as const;

export const planFields = {
  fastener: [...carried, 'thread', 'head', 'strength', 'locking', 'threadRun', 'captive', 'looseWashers'],
  socket: [...carried, 'drive', 'opening', 'length', 'innerDepth', 'outsideDiameter', 'ratedTorque'],
  extension: [...carried, 'form', 'driveIn', 'driveOut', 'length', 'outsideDiameter', 'ratedTorque'],
  driver: [...carried, 'drive', 'max', 'lever', 'stepDeg'],
  'torque-tool': [
    ...carried,
    'drive',
    'min',
    'max',
    'increment',
    'settings',
    'accuracyOfReading',
    'lever',
    'stepDeg',
    'loosens',
    'direction',
  ],
  gear: [...carried, 'consumed', 'pouchPlaces', 'supplies'],
  bag: [...described, 'role', 'mass', 'massMax', 'volumeMax', 'itemsMax', 'sizeMax', 'tetherPoints', 'pocketNames'],
  outing: [...described, 'roles', 'bags', 'minutesMax', 'turnBack', 'swaps', 'carryMax'],
  step: [
    ...described,
    'outing',
    'role',
    'slot',
    'action',
    'fastener',
    'count',
    'callout',
    'calloutSource',
    'running',
    'runningIncluded',
    'demand',
    'access',
    'hold',
    'gear',
    'moves',
    'minutes',
    'contingency',
    'spread',
    'fastenerMoves',
    'safeToLeave',
    'after',
    'watchOuts',
    'cautions',
  ],
  task: ['name', 'siteText', 'about', 'crew', 'places', 'rangeShareMin'],
} as const;

/** The named fields that an object has; a field without a value is no field. */
export function picked<T extends object, K extends keyof T>(from: T, fields: readonly K[]): Pick<T, K> {
  const found: Partial<Pick<T, K>> = {};
  for (const field of fields) if (from[field] !== undefined) found[field] = from[field];
  return found as Pick<T, K>;
}
