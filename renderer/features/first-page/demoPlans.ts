/** The worked examples that ship with the program. Every figure of theirs that is not cited is invented. */
export interface DemoPlan {
  id: string;
  name: string;
  /** What it shows, in one line. */
  shows: string;
  fileName: string;
  text: () => Promise<string>;
}

export const demoPlans: readonly DemoPlan[] = [
  {
    id: 'skua-rock-light',
    name: 'Skua Rock light',
    shows: 'Inch and unified threads, two outings: an azimuth drive on the lamp platform of a sea-rock light.',
    fileName: 'skua-rock-light.json',
    text: async () => (await import('../../../data/demo/skua-rock-light.json?raw')).default,
  },
  {
    id: 'tarn-array',
    name: 'Tarn array',
    shows: 'Metric, three outings: a brake caliper and a slip-ring box on a mast, with a case left overnight.',
    fileName: 'tarn-array.json',
    text: async () => (await import('../../../data/demo/tarn-array.json?raw')).default,
  },
];
