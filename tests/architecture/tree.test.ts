import { readFileSync, statSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { runBin } from '../support/installed.ts';
import { root, trackedFiles } from '../support/tracked.ts';

const files = trackedFiles();
const read = (path: string) => readFileSync(join(root, path), 'utf8');

/** The tracked texts; data tables are texts too, pictures and fonts are not. */
const texts = files.filter(
  (path) => /\.(tsx?|mjs|mts|jsonc?|md|css|html|csv|txt|ya?ml)$|^\.ci\//.test(path) && path !== 'package-lock.json',
);
const sources = files.filter((path) => /\.(tsx?|mjs|mts)$/.test(path));

/** Where a text of `paths` holds `pattern`: path, line number, line. */
function findings(paths: readonly string[], pattern: RegExp): string[] {
  return paths.flatMap((path) =>
    read(path)
      .split('\n')
      .flatMap((line, index) => (pattern.test(line) ? [`${path}:${index + 1}: ${line.trim()}`] : [])),
  );
}

const lineCount = (path: string) => read(path).split('\n').length - 1;

/** Any of `words`, each written with a bar in it so that this file does not find itself. */
const anyOf = (...words: string[]) => `(${words.map((word) => word.replace('|', '')).join('|')})`;

describe('the tree', () => {
  it('has files to look at', () => {
    expect(texts.length).toBeGreaterThan(20);
    expect(sources.length).toBeGreaterThan(10);
  });

  it('has exactly the rooms at its top', () => {
    const rooms = ['data', 'electron', 'renderer', 'shared-types', 'tests'];
    const papers = ['DEVELOPERS.md', 'LICENSE', 'README.md', 'package-lock.json', 'package.json', 'tsconfig.json'];
    const hidden = ['.ci', '.editorconfig', '.gitattributes', '.gitignore', '.npmrc', '.oxfmtrc.json'];
    const top = [...new Set(files.map((path) => path.split('/', 1)[0] ?? ''))];
    expect(top.toSorted()).toEqual([...rooms, ...papers, ...hidden].toSorted());
  });

  it('tracks no file over 1 MiB', () => {
    expect(files.filter((path) => statSync(join(root, path)).size > 1024 * 1024)).toEqual([]);
  });

  it('keeps files small: 250 lines in the engine, 400 elsewhere', () => {
    const most = (path: string) => (path.startsWith('renderer/engine/') ? 250 : 400);
    expect(sources.filter((path) => lineCount(path) > most(path))).toEqual([]);
  });

  it('has no drawer for odds and ends', () => {
    expect(files.filter((path) => /(^|\/)(utils?|helpers?|misc|common|lib)(\/|\.[^/]*$)/i.test(path))).toEqual([]);
  });

  it('holds no code among the facts', () => {
    expect(files.filter((path) => path.startsWith('data/') && !/\.(json|csv|md)$/.test(path))).toEqual([]);
  });

  it('runs every test file, in exactly one project', () => {
    const { text } = runBin('vitest', ['--config', 'tests/vitest.config.ts', 'list', '--filesOnly', '--json']);
    const listed = JSON.parse(text.slice(text.indexOf('['))) as { file: string }[];
    const tracked = files.filter((path) => /\.(test|spec)\.\w+$/.test(path));
    const runs = (path: string) => listed.filter(({ file }) => file === join(root, path)).length;
    expect(tracked.length).toBeGreaterThan(5);
    expect(tracked.filter((path) => runs(path) !== 1)).toEqual([]);
  });

  it('names only files that are there in what it says of itself', () => {
    const written = ['README.md', 'DEVELOPERS.md'].flatMap((page) => {
      const text = readFileSync(join(root, page), 'utf8');
      const pictures = [...text.matchAll(/!\[[^\]]*\]\(([^)]+)\)/g)].map((match) => match[1] ?? '');
      const paths = [...text.matchAll(/`((?:data|electron|renderer|shared-types|tests)\/[\w./-]+\.\w+)`/g)].map(
        (match) => match[1] ?? '',
      );
      return [...pictures, ...paths];
    });
    expect(written.length).toBeGreaterThan(8);
    expect(written.filter((path) => !files.includes(path))).toEqual([]);
  });

  it('puts nothing off', () => {
    const word = new RegExp(
      `\\b${anyOf('TO|DO', 'FIX|ME', 'XX|X', 'HA|CK', 'WI|P')}\\b|${anyOf('not imp|lemented', 'not yet imp|lemented', 'lorem ips|um')}`,
    );
    expect(findings(texts, word)).toEqual([]);
  });

  it('silences no check of types', () => {
    const silencer = new RegExp(anyOf('@ts-ig|nore', '@ts-no|check', '\\bas an|y\\b'));
    expect(findings(sources, silencer)).toEqual([]);
  });

  it('speaks of itself alone', () => {
    const elsewhere = new RegExp(anyOf('/wo|rk/', 'shared/de|sign', 'shared/hand|book'));
    expect(findings(texts, elsewhere)).toEqual([]);
  });
});
