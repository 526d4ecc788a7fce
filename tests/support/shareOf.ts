/** A quarter of so many random trials, as every run makes; `BAGWRIGHT_WHOLE=1` before the command makes all of them. */
export const shareOf = (trials: number): number =>
  process.env['BAGWRIGHT_WHOLE'] === '1' ? trials : Math.ceil(trials / 4);
