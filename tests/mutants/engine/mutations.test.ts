import { runInNewContext } from 'node:vm';
import ts from 'typescript';
import { describe, expect, it } from 'vitest';
import { root } from '../../support/tracked.ts';
import { untypedMutations } from './engineSources.ts';
import { instrumented } from './instrument.ts';
import { changeOf, mutationsOf } from './mutations.ts';
import { sampleOf } from './sample.ts';

const changes = (text: string, addsNumbers = true): string[] =>
  mutationsOf(ts.createSourceFile('x.ts', text, ts.ScriptTarget.ES2023, true), 'x.ts', () => addsNumbers).map(changeOf);

describe('the mutants of a text', () => {
  it.each([
    ['a + b', ['a + b → a - b']],
    ['a % b', ['a % b → a * b']],
    ['a < b', ['a < b → a <= b', 'a < b → a >= b']],
    ['a >= b', ['a >= b → a > b', 'a >= b → a < b']],
    ['a === b', ['a === b → a !== b']],
    ['a && b', ['a && b → a || b']],
    ['a += b', ['a += b → a -= b']],
    ['i--', ['i-- → i++']],
    ['Math.min(a, b)', ['Math.min → Math.max']],
    ['Math.ceil(a)', ['Math.ceil → Math.floor']],
    ['Math.abs(a)', ['Math.abs(a) → (a)']],
    ['-a', ['-a → (a)']],
    ['[0, 1.5, 1e-9, 7n]', ['0 → 1', '1.5 → 1.5150000000000001', '1e-9 → 0.0000010000000000000002', '7n → 8n']],
  ])('%s', (text, expected) => {
    expect(changes(text)).toEqual(expected);
  });

  it.each([
    ['a sum of texts', "'a' + b", false],
    ['a comment', '/** 1 + 2 */ f(); // 3 < 4', true],
    ['a text', "const a = 'b - 1' + `c ${d + 1}`;", false],
    ['a type', 'type A = 1 | 2; let a: 3; f<4>(); interface B { 5: 6 }', true],
    ['what is said to a person', 'g({ message: a === 1 ? b : c });', true],
    ['a name', 'g({ 1: a });', true],
  ])('are none in %s', (_, text, addsNumbers) => {
    expect(changes(text, addsNumbers)).toEqual([]);
  });
});

describe('a text with its mutants behind switches', () => {
  const text = 'result = f(a + 2 * b) < 1 && c;';
  const mutants = mutationsOf(ts.createSourceFile('x.ts', text, ts.ScriptTarget.ES2023, true), 'x.ts', () => true).map(
    (mutation, id) => ({ ...mutation, id }),
  );

  /** What the text comes to with one mutant on. */
  function resultWith(on: number, written: string): unknown {
    const realm = { __engineMutant: (id: number) => id === on, f: (value: number) => value, a: -5, b: 3, c: 'c' };
    return runInNewContext(`let result; ${written}; result`, realm) as unknown;
  }

  it('comes to the same as before while none is on', () => {
    expect(resultWith(-1, instrumented(text, mutants))).toBe(resultWith(-1, text));
    expect(instrumented(text, [])).toBe(text);
  });

  it('comes to what each mutant written by hand comes to', () => {
    expect(mutants).toHaveLength(7);
    const built = instrumented(text, mutants);
    for (const { id, start, end, to } of mutants)
      expect(resultWith(id, built)).toBe(resultWith(-1, text.slice(0, start) + to + text.slice(end)));
  });
});

describe('a sample of the engine’s mutants', () => {
  const round = 'renderer/engine/units/round.ts';
  const exact = 'renderer/engine/units/exact.ts';
  const mutations = new Map([round, exact].map((file) => [file, untypedMutations(root, file)]));
  const size = [...mutations.values()].flat().length;

  it('is the same for the same seed, and another for another', () => {
    expect(sampleOf(mutations, 40, 5)).toEqual(sampleOf(mutations, 40, 5));
    expect(sampleOf(mutations, 40, 5)).not.toEqual(sampleOf(mutations, 40, 6));
  });

  it('is as large as asked for, each mutant once, each file in proportion to what it holds', () => {
    const sample = sampleOf(mutations, 40, 5);
    expect(new Set(sample).size).toBe(40);
    const ofRound = sample.filter(({ file }) => file === round).length;
    expect(Math.abs(ofRound - (40 * (mutations.get(round)?.length ?? 0)) / size)).toBeLessThan(1);
    expect(sampleOf(mutations, size + 1, 5)).toHaveLength(size);
  });
});
