import { describe, expect, it } from 'vitest';
import { root } from '../../support/tracked.ts';
import { untypedMutations } from './engineSources.ts';
import { changeOf } from './mutations.ts';
import { survivors } from './survivors.ts';

describe('the list of survivors', () => {
  it('names each once, with a reason', () => {
    const named = survivors.map(({ file, line, change }) => `${file} ${line} ${change}`);
    expect(new Set(named).size).toBe(named.length);
    expect(survivors.filter(({ reason }) => reason.split(' ').length < 4)).toEqual([]);
  });

  it('names only mutants that the engine as it stands has', () => {
    const inFile = new Map(survivors.map(({ file }) => [file, untypedMutations(root, file)]));
    const gone = survivors.filter(
      ({ file, line, change }) =>
        !inFile.get(file)?.some((mutation) => mutation.lineText === line && changeOf(mutation) === change),
    );
    expect(gone).toEqual([]);
  });
});
