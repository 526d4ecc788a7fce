import { describe, expect, it } from 'vitest';
import { isOfManifest, manifestTag, readTag, tagText } from '../../../renderer/engine/tag/index.ts';
import { revisionRead } from '../../../renderer/features/revisions/revisionRead.ts';

const hash = (first: string): string => first.padEnd(64, '0');

describe('the label of a frozen manifest', () => {
  it('carries its number and three digits of its hash, and is read as that', () => {
    // 0x7f3a91c2 is 2 134 544 834.
    expect(manifestTag({ number: 3, hash: hash('7f3a91c2') })).toEqual({ kind: 'manifest', tag: 3, piece: 834 });
    for (let number = 1; number <= 99_999; number += 997)
      for (const first of ['00000000', 'ffffffff', '7f3a91c2']) {
        const manifest = { number, hash: hash(first) };
        const read = readTag(tagText(manifestTag(manifest)));
        expect('tag' in read && isOfManifest(read.tag, manifest)).toBe(true);
      }
  });

  it('opens the revision that it names and no other', () => {
    const revisions = [
      { number: 1, hash: hash('00000001') },
      { number: 2, hash: hash('00000002') },
    ];
    const read = (number: number, first: string) =>
      revisionRead(readTag(tagText(manifestTag({ number, hash: hash(first) }))), revisions);
    expect(read(2, '00000002')).toBe(revisions[1]);
    expect(read(2, '00000003')).toEqual({
      refused:
        'it is of a revision 2 of other content than this task’s: of another task, or of another copy of the program',
    });
    expect(read(3, '00000003')).toEqual({ refused: 'this task has no revision 3' });
    expect(revisionRead(readTag(tagText({ kind: 'item', tag: 2, piece: 2 })), revisions)).toEqual({
      refused: 'label 2 is of a thing',
    });
  });
});
