/**
 * For `vi.waitFor`, which by itself gives up after a second: on a busy machine that is no sign that something never comes.
 * What comes in time is not waited for.
 */
export const patience = { timeout: 30_000, interval: 20 };
