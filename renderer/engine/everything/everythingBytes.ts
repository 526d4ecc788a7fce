/** The largest file with everything that is read, and the largest that is written. */
export const everythingBytesMax = 64 * 1024 * 1024;
