/** The line a character stands on, the first being 1. */
export function rowAt(text: string, position: number): number {
  return rowStarts(text)(position);
}

/** The same for many characters of one text: the line breaks are found once. */
export function rowStarts(text: string): (position: number) => number {
  const breaks: number[] = [];
  for (let at = text.indexOf('\n'); at !== -1; at = text.indexOf('\n', at + 1)) breaks.push(at);
  return (position) => {
    let low = 0;
    let high = breaks.length;
    while (low < high) {
      const middle = (low + high) >> 1;
      if (Number(breaks[middle]) < position) low = middle + 1;
      else high = middle;
    }
    return low + 1;
  };
}
