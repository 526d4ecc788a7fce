import type { Finding } from '../../../shared-types/judged.ts';
import type { RowReading } from '../sheet/index.ts';
import { calibrationOf, temperatureQueries } from '../setting/calibration.ts';
import type { AsRunRecord } from './record.ts';

const pattern =
  /^(?<number>[+\-−]?(?:\d+(?:[.,]\d+)?|[.,]\d+))\s*(?:(?<celsius>°\s*C|deg\s*C|C|℃)|(?<fahrenheit>°\s*F|deg\s*F|F|℉)|(?<kelvin>K))?$/i;
/** Beyond these no one works a wrench (common practice, no source). */
const [coldestC, hottestC] = [-100, 100];

/**
 * The temperature a row gives: "21 °C", "70 °F" or "294 K". A number alone is kept as it stands, and judged by nothing.
 *
 *   °C = (°F − 32)/1.8 = K − 273.15
 *
 * @returns null where the cell is empty or refused
 */
export function readTemperature(row: RowReading): AsRunRecord['temperature'] {
  const text = row.text('temperature');
  if (text === null) return null;
  const groups = pattern.exec(text)?.groups;
  if (groups === undefined) {
    row.refuse('temperature', 'unreadable-quantity', 'is no temperature, as 21 °C', text);
    return null;
  }
  const value = Number((groups['number'] ?? '').replace('−', '-').replace(',', '.'));
  const celsius = inCelsius(value, groups);
  if (celsius !== null && !(celsius >= coldestC && celsius <= hottestC)) {
    row.refuse('temperature', 'out-of-range', `must be ${coldestC} to ${hottestC} °C`, text);
    return null;
  }
  return { text, celsius };
}

function inCelsius(value: number, groups: Record<string, string | undefined>): number | null {
  if (groups['celsius'] !== undefined) return value;
  if (groups['fahrenheit'] !== undefined) return (value - 32) / 1.8;
  return groups['kelvin'] === undefined ? null : value - 273.15;
}

/** The conditions do not depend on the tool's range; any that is held will do. */
const conditions = calibrationOf(50);

/** `site-temperature`: a row recorded where it was warmer or colder than torque tools are checked at. */
export function temperatureFindings({ temperature }: AsRunRecord): Finding[] {
  if (temperature === null) return [];
  const { celsius, text } = temperature;
  const about = { rule: 'site-temperature', source: conditions.source };
  if (celsius === null)
    return [{ ...about, severity: 'note', message: `The temperature "${text}" has no unit and is not judged.` }];
  return temperatureQueries(celsius, conditions).map(({ message }) => ({
    ...about,
    severity: 'query',
    message: `${message.charAt(0).toUpperCase()}${message.slice(1)}.`,
    value: celsius,
    limit: celsius < conditions.ambientC.min ? conditions.ambientC.min : conditions.ambientC.max,
    unit: '°C',
  }));
}
