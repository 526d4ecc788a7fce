/** Times as the window writes them: hours and minutes of the day, days as in a file's name. */
export function clockText(at: Date): string {
  return at.toLocaleTimeString('en-GB', { hour: '2-digit', minute: '2-digit' });
}

export function dayText(at: Date): string {
  const two = (part: number): string => String(part).padStart(2, '0');
  return `${at.getFullYear()}-${two(at.getMonth() + 1)}-${two(at.getDate())}`;
}

export function dayAndClockText(at: Date): string {
  return `${dayText(at)} ${clockText(at)}`;
}
