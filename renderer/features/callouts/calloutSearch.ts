/** What a search among callouts looks at. */
export const calloutSearch = {
  searchLabel: 'Find a callout: id, thread, torque or rule',
  searchHint: 'Id, thread, torque or rule',
} as const;
