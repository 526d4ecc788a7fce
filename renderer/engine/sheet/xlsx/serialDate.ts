/** Days that 1 January 1970 is counted as, in each of the two ways to count. */
const epochDays = { 1900: 25569, 1904: 24107 };
/** 31 December 9999, where spreadsheets end. */
const daysMost = 2_958_465;

/**
 * The date that a spreadsheet keeps as the number of a day.
 *
 * @param serial - days, with the time of day behind the point
 * @param system - 1900, which has a 29 February 1900 that never was, or 1904
 * @returns "2024-03-08", with "T14:30:00" behind it where there is a time of day; null where the number is no date
 */
export function serialDate(serial: number, system: 1900 | 1904): string | null {
  if (!Number.isFinite(serial) || serial < 0 || serial > daysMost) return null;
  const day = Math.floor(serial);
  const seconds = Math.round((serial - day) * 86_400);
  const time = `${two(Math.floor(seconds / 3600))}:${two(Math.floor((seconds % 3600) / 60))}:${two(seconds % 60)}`;
  if (system === 1900) {
    // A time of day alone; and the day that never was.
    if (day === 0) return seconds < 86_400 ? time : null;
    if (day === 60) return null;
  }
  // Before the day that never was the count is one short.
  const days = day - epochDays[system] + (system === 1900 && day < 60 ? 1 : 0);
  const carried = seconds === 86_400 ? 1 : 0;
  const { year, month, date } = civil(days + carried);
  const shown = `${String(year).padStart(4, '0')}-${two(month)}-${two(date)}`;
  return seconds === 0 || carried === 1 ? shown : `${shown}T${time}`;
}

function two(part: number): string {
  return String(part).padStart(2, '0');
}

/** Year, month and day of a day counted from 1 January 1970, by the Gregorian calendar: whole numbers only. */
function civil(days: number): { year: number; month: number; date: number } {
  // Counted from 1 March of the year 0, so that the leap day is a year's last.
  const shifted = days + 719_468;
  const era = Math.floor(shifted / 146_097);
  const ofEra = shifted - era * 146_097;
  const yearOfEra = Math.floor(
    (ofEra - Math.floor(ofEra / 1460) + Math.floor(ofEra / 36_524) - Math.floor(ofEra / 146_096)) / 365,
  );
  const ofYear = ofEra - (365 * yearOfEra + Math.floor(yearOfEra / 4) - Math.floor(yearOfEra / 100));
  const fromMarch = Math.floor((5 * ofYear + 2) / 153);
  const month = fromMarch < 10 ? fromMarch + 3 : fromMarch - 9;
  return {
    year: yearOfEra + era * 400 + (month <= 2 ? 1 : 0),
    month,
    date: ofYear - Math.floor((153 * fromMarch + 2) / 5) + 1,
  };
}
