/** What a search among records looks at. */
export const recordSearch = {
  searchLabel: 'Find a record: callout, position, serial, time or rule',
  searchHint: 'Callout, position, serial, time or rule',
} as const;
