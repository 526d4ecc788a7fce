import type { Interface } from '../../../shared-types/records/site.ts';
import { RefusedError } from '../errors.ts';
import { orderFaultWords, parsePattern, placesIn, positionNames, positionsOf, readPattern } from '../pattern/index.ts';
import type { Fault } from './faults.ts';

/**
 * What is wrong with where an interface's positions lie, and with the order they are tightened in.
 *
 * @throws whatever reading the pattern throws that is no refusal
 */
export function patternFaults({ pattern = '', count, order }: Interface): Fault[] {
  let positions: string[];
  try {
    const places = pattern.trim() === '' ? null : placesIn(parsePattern(pattern));
    if (places !== null) readPattern(pattern, []);
    else if (pattern.trim() !== '') readPattern(pattern, positionNames(Math.min(count, 2)));
    if (places !== null && places !== count)
      return [{ path: 'count', message: `is ${count}, and the pattern has ${places} places: make both the same.` }];
    positions = positionsOf({ pattern, count });
  } catch (error) {
    if (!(error instanceof RefusedError)) throw error;
    return [{ path: 'pattern', message: `"${pattern}": ${error.refusal.message}` }];
  }
  return order === undefined ? [] : orderWords(order, positions);
}

function orderWords(order: readonly string[], positions: readonly string[]): Fault[] {
  const said = orderFaultWords(order, positions);
  return said === null ? [] : [{ path: 'order', message: `${said}: each position stands in it once.` }];
}
