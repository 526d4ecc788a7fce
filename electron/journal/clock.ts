/** What the clock claims. Nothing is ordered by it. */
export type Clock = () => { utc: string; tzOffset: number };

export const systemClock: Clock = () => {
  const now = new Date();
  return { utc: now.toISOString(), tzOffset: 0 - now.getTimezoneOffset() };
};
