/** JSON step by step is the JSON of the language, whatever is in it. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { textInSteps, valueInSteps } from '../../../renderer/engine/json/longText.ts';

const written = (value: unknown): string => [...textInSteps(value)].join('');

function read(text: string): { value: unknown; steps: number } {
  const reading = valueInSteps(text);
  for (let steps = 0; ; steps += 1) {
    const step = reading.next();
    if (step.done === true) return { value: step.value, steps };
  }
}

const page = (changes: number) => ({
  entries: [
    {
      seq: 1,
      payload: {
        changes: Array.from({ length: changes }, (_, at) => ({ id: `a\\"${at}]}`, after: { cells: { 'x,"': '{[' } } })),
      },
    },
  ],
  next: null,
});

describe('written', () => {
  it('gives the text of JSON.stringify, fields that are undefined left out', () => {
    fc.assert(fc.property(fc.jsonValue(), (value) => void expect(written(value)).toBe(JSON.stringify(value))));
    for (const value of [{ a: undefined, b: { c: undefined } }, {}, [], { a: [undefined, 1] }, null, 'x'])
      expect(written(value)).toBe(JSON.stringify(value));
  });

  it('takes a long list in many steps', () => {
    const request = {
      lease: 'x',
      payload: { title: 'T', changes: page(1250).entries[0]?.payload.changes, of: undefined },
    };
    const steps = [...textInSteps(request)];
    expect(steps.join('')).toBe(JSON.stringify(request));
    expect(steps.length).toBeGreaterThanOrEqual(13);
    expect(Math.max(...steps.map((step) => step.length))).toBeLessThan(steps.join('').length / 10);
  });
});

describe('read', () => {
  it('gives the value of JSON.parse, with blanks or without, fields of any name among them', () => {
    fc.assert(
      fc.property(fc.jsonValue({ maxDepth: 8 }), fc.constantFrom(undefined, 1, '\t'), (value, blanks) => {
        const text = JSON.stringify(value, null, blanks);
        expect(read(text).value).toEqual(JSON.parse(text));
      }),
    );
    const odd = '{"__proto__":{"__proto__":1},"a":[],"b":{},"a":[{"\\u0022":"\\\\"}]}';
    expect(JSON.stringify(read(odd).value)).toBe(JSON.stringify(JSON.parse(odd)));
    expect(Object.hasOwn(read(odd).value as object, '__proto__')).toBe(true);
  });

  it('takes a step for each change of a long entry', () => {
    const text = JSON.stringify(page(3000));
    const { value, steps } = read(text);
    expect(value).toEqual(page(3000));
    expect(steps).toBeGreaterThanOrEqual(3000);
  });

  it('refuses what JSON.parse refuses', () => {
    const text = JSON.stringify(page(2));
    for (let cut = 0; cut < text.length; cut += 1)
      expect(() => read(text.slice(0, cut)), text.slice(0, cut)).toThrow(SyntaxError);
    for (const bad of [
      `${text}}`,
      `${text} 1`,
      '{"a" 1}',
      '{a:1}',
      '[1 2]',
      '[1,]',
      '{"a":1,}',
      '[,]',
      '{"a":}',
      '"x',
      'x',
    ])
      expect(() => read(bad), bad).toThrow(SyntaxError);
    fc.assert(
      fc.property(
        fc.jsonValue(),
        fc.nat(),
        fc.constantFrom('"', '{', ']', ',', ':', '\\', '1'),
        (value, where, sign) => {
          const whole = JSON.stringify(value);
          const at = where % (whole.length + 1);
          const broken = whole.slice(0, at) + sign + whole.slice(at);
          let due: unknown;
          try {
            due = { value: JSON.parse(broken) as unknown };
          } catch {
            due = null;
          }
          if (due === null) expect(() => read(broken), broken).toThrow(SyntaxError);
          else expect({ value: read(broken).value }).toEqual(due);
        },
      ),
      { numRuns: 500 },
    );
  });
});
