/** The shell's own "no", already said on the error stream: the launcher does not try another window after it. */
export const alreadyRefused = 3;
