import type { Refusal, RefusalCode } from '../../../shared-types/errors.ts';
import type { z } from '../../../shared-types/schema.ts';
import { RefusedError } from '../errors.ts';
import { fieldText } from './fieldText.ts';
import { rowFinder } from './rowOf.ts';
import { valueAt } from './valueAt.ts';

type Issue = z.core.$ZodIssue;

interface Origin {
  file?: string;
  /** The JSON text, where there is one: rows are found in it. */
  text?: string;
  /** The value that was checked. */
  input: unknown;
}

/**
 * What a schema found wrong, in plain words: each field with its path, value, line and reason.
 *
 * @returns the refusal to throw: the first fault in front, all of them in `rows` where there are several
 */
export function refusalFromZod(error: z.ZodError, origin: Origin): RefusedError {
  const rowOf = origin.text === undefined ? () => undefined : rowFinder(origin.text);
  const refusals = error.issues.flatMap((issue) => refusalsOf(issue, [], origin, rowOf));
  const [first] = refusals;
  if (first === undefined)
    return new RefusedError({ code: 'wrong-shape', message: 'The input has another shape than asked for.' });
  return new RefusedError(refusals.length === 1 ? first : { ...first, rows: refusals });
}

function refusalsOf(
  issue: Issue,
  above: readonly PropertyKey[],
  origin: Origin,
  rowOf: (field: string) => number | undefined,
): Refusal[] {
  const path = [...above, ...issue.path];
  if (issue.code === 'unrecognized_keys') {
    return issue.keys.map((key) =>
      refusalAt(
        [...path, key],
        'wrong-shape',
        'is no field known here',
        valueAt(origin.input, [...path, key]),
        origin,
        rowOf,
      ),
    );
  }
  if (issue.code === 'invalid_union') {
    const nearest = nearestAlternative(issue.errors);
    if (nearest !== undefined) return nearest.flatMap((inner) => refusalsOf(inner, path, origin, rowOf));
  }
  const value = valueAt(origin.input, path);
  return [refusalAt(path, codeOf(issue, value), wordsOf(issue, value), value, origin, rowOf)];
}

/** Of several shapes, the one the input came nearest to: the one whose faults lie deepest. None if all fail at the top. */
function nearestAlternative(alternatives: Issue[][]): Issue[] | undefined {
  const inside = alternatives.filter((issues) =>
    issues.every(({ path, code }) => path.length > 0 || (code !== 'invalid_type' && code !== 'invalid_value')),
  );
  return inside.toSorted((a, b) => a.length - b.length)[0];
}

function refusalAt(
  path: readonly PropertyKey[],
  code: RefusalCode,
  words: string,
  value: unknown,
  origin: Origin,
  rowOf: (field: string) => number | undefined,
): Refusal {
  const field = fieldText(path);
  const row = rowOf(field);
  return {
    code,
    message: field === '' ? `The input ${words}.` : `${field}: ${words}`,
    ...(origin.file === undefined ? {} : { file: origin.file }),
    ...(row === undefined ? {} : { row }),
    ...(field === '' ? {} : { field }),
    ...(value === undefined || typeof value === 'object' ? {} : { value }),
  };
}

/** A schema may say it in words of its own; those of the package begin so. */
const packageWords = /^(?:Invalid|Too (?:big|small)|Unrecognized)\b/;

function codeOf(issue: Issue, value: unknown): RefusalCode {
  // Only quantities tell a bare number in words of their own that it has no unit.
  if (issue.code === 'invalid_type' && typeof value === 'number' && !packageWords.test(issue.message))
    return 'ambiguous-quantity';
  if (issue.code === 'too_big' || issue.code === 'too_small' || issue.code === 'not_multiple_of') {
    return typeof value === 'number' ? 'out-of-range' : 'wrong-shape';
  }
  return issue.code === 'custom' ? 'contradiction' : value === undefined ? 'missing-field' : 'wrong-shape';
}

function wordsOf(issue: Issue, value: unknown): string {
  if (value === undefined && issue.code !== 'custom') return 'is missing';
  if (!packageWords.test(issue.message)) return issue.message;
  switch (issue.code) {
    case 'invalid_type':
      return `must be ${nameOf(issue.expected)}; it is ${described(value)}`;
    case 'invalid_value':
      return `must be ${listed(issue.values)}; it is ${described(value)}`;
    case 'invalid_union': {
      const options: unknown = 'options' in issue ? issue.options : undefined;
      const asked = Array.isArray(options) ? listed(options) : namesOfAlternatives(issue.errors);
      return `must be ${asked}; it is ${described(value)}`;
    }
    case 'too_small':
      return bound(issue.origin, issue.inclusive === false ? 'more than' : 'at least', issue.minimum, value);
    case 'too_big':
      return bound(issue.origin, issue.inclusive === false ? 'less than' : 'at most', issue.maximum, value);
    case 'not_multiple_of':
      return `must be a multiple of ${issue.divisor}; it is ${described(value)}`;
    default:
      return `has another form than asked for; it is ${described(value)}`;
  }
}

function bound(origin: string, relation: string, limit: number | bigint, value: unknown): string {
  if (origin === 'string') {
    return limit === 1
      ? 'is empty'
      : `must have ${relation} ${limit} characters; it has ${typeof value === 'string' ? value.length : 'another number'}`;
  }
  if (origin === 'array' || origin === 'set') {
    return `must have ${relation} ${limit} entries; it has ${Array.isArray(value) ? value.length : 'another number'}`;
  }
  return `must be ${relation} ${limit}; it is ${described(value)}`;
}

const names: Record<string, string> = {
  string: 'a text',
  number: 'a number',
  int: 'a whole number',
  boolean: 'true or false',
  array: 'a list',
  tuple: 'a list',
  object: 'an object',
  record: 'an object',
  null: 'null',
};

function nameOf(expected: string): string {
  return Object.hasOwn(names, expected) ? (names[expected] ?? expected) : expected;
}

function namesOfAlternatives(errors: Issue[][]): string {
  const asked = errors
    .flat()
    .map((issue) =>
      issue.code === 'invalid_type'
        ? nameOf(issue.expected)
        : issue.code === 'invalid_value'
          ? listed(issue.values)
          : 'another form',
    );
  return [...new Set(asked)].join(' or ');
}

function listed(values: readonly unknown[]): string {
  return values.map((value) => (typeof value === 'string' ? `"${value}"` : String(value))).join(' or ');
}

function described(value: unknown): string {
  if (value === null) return 'null';
  if (Array.isArray(value)) return 'a list';
  if (typeof value === 'object') return 'an object';
  if (typeof value === 'string')
    return value === '' ? 'empty' : `the text "${value.length > 60 ? `${value.slice(0, 60)}…` : value}"`;
  return typeof value === 'number' ? `the number ${value}` : String(value);
}
