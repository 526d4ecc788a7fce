/** The moment as ISO 8601 with this machine's offset from UTC: "2026-11-25T10:42:00+01:00". */
export function isoWithOffset(at: Date): string {
  const two = (part: number): string => String(Math.trunc(Math.abs(part))).padStart(2, '0');
  // Minutes west of UTC, by the language's own sign.
  const west = at.getTimezoneOffset();
  const day = `${String(at.getFullYear()).padStart(4, '0')}-${two(at.getMonth() + 1)}-${two(at.getDate())}`;
  const time = `${two(at.getHours())}:${two(at.getMinutes())}:${two(at.getSeconds())}`;
  return `${day}T${time}${west > 0 ? '-' : '+'}${two(west / 60)}:${two(west % 60)}`;
}
