/** A time as a row gives it. Two can be compared only where both are of one form. */
export interface Moment {
  /** `zoned`: date and time with an offset; `local`: without one; `day`: a date alone; `clock`: a time alone. */
  form: 'zoned' | 'local' | 'day' | 'clock';
  /** Seconds from the first day of 1970, or of the day; an offset is taken out. */
  seconds: number;
  /** Days from the first of 1970, by the calendar of the place; null where no date is given. */
  day: number | null;
}

const pattern =
  /^(?:(?<year>\d{4})-(?<month>\d{2})-(?<date>\d{2}))?(?:[T ]?(?<hour>\d{2}):(?<minute>\d{2})(?::(?<second>\d{2}(?:\.\d+)?))?)?\s*(?<offset>Z|[+-]\d{2}:?\d{2})?$/i;

const secondsOfDay = 86_400;

/**
 * A date and time as ISO 8601 writes them: "2026-04-02 09:30", "2026-04-02T09:30:00Z", "2026-04-02", "09:30".
 *
 * @param text - as typed
 * @returns null where it is none of these, or no such day or time exists
 */
export function readMoment(text: string): Moment | null {
  const groups = pattern.exec(text.trim())?.groups;
  if (groups === undefined) return null;
  const { year, month, date, hour, minute, second = '0', offset } = groups;
  const day = year === undefined ? null : dayNumber(Number(year), Number(month), Number(date));
  if (Number.isNaN(day)) return null;
  if (hour === undefined)
    return day === null || offset !== undefined ? null : { form: 'day', seconds: day * secondsOfDay, day };
  if (Number(hour) > 23 || Number(minute) > 59 || Number(second) >= 61) return null;
  const clock = Number(hour) * 3600 + Number(minute) * 60 + Number(second);
  if (day === null) return offset === undefined ? { form: 'clock', seconds: clock, day } : null;
  const seconds = day * secondsOfDay + clock;
  if (offset === undefined) return { form: 'local', seconds, day };
  const away = offsetSeconds(offset);
  return away === null ? null : { form: 'zoned', seconds: seconds - away, day };
}

function offsetSeconds(offset: string): number | null {
  if (offset.toUpperCase() === 'Z') return 0;
  const [, sign, hours, minutes] = /^([+-])(\d{2}):?(\d{2})$/.exec(offset) ?? [];
  if (Number(hours) > 14 || Number(minutes) > 59) return null;
  return (sign === '-' ? -1 : 1) * (Number(hours) * 3600 + Number(minutes) * 60);
}

/** Days from the first of 1970; NaN where the month has no such day. */
function dayNumber(year: number, month: number, date: number): number {
  const isLeap = (year % 4 === 0 && year % 100 !== 0) || year % 400 === 0;
  const lengths = [31, isLeap ? 29 : 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31];
  const length = lengths[month - 1];
  if (length === undefined || date < 1 || date > length) return Number.NaN;
  const before = year - 1;
  const leapDays = Math.floor(before / 4) - Math.floor(before / 100) + Math.floor(before / 400);
  const inYear = lengths.slice(0, month - 1).reduce((sum, days) => sum + days, 0) + date - 1;
  // 719162 days lie before the first of 1970 in the calendar drawn out backwards.
  return before * 365 + leapDays + inYear - 719_162;
}

/** Whether one moment is before another; null where they cannot be compared. */
export function isBefore(one: Moment, other: Moment): boolean | null {
  if (one.form === other.form) return one.seconds < other.seconds;
  // A day alone tells something only of other days.
  if (one.day === null || other.day === null || (one.form !== 'day' && other.form !== 'day')) return null;
  return one.day === other.day ? null : one.day < other.day;
}
