import { describe, expect, it } from 'vitest';
import { marginBoxes } from '../../../renderer/features/manifest/pageFurniture.ts';

const boxes = (journal: Parameters<typeof marginBoxes>[0]['journal']): string =>
  marginBoxes({ paper: 'A4', left: ['Manifest'], middle: ['Revision 3'], right: ['Units'], journal });

describe('the title block of every printed page', () => {
  it('names the journal’s head by number and first eight digits', () => {
    const head = { seq: 412, hash: `7f3a91c2${'0'.repeat(56)}` };
    expect(boxes(head)).toMatch(/@bottom-center \{ content: "Revision 3" "\\a" "Journal 412\\2c  7f3a 91c2"/);
  });

  it('says where it is empty or could not be read, and nothing where there is none', () => {
    expect(boxes({ seq: 0, hash: '0'.repeat(64) })).toContain('Journal\\3a  empty');
    expect(boxes(null)).toContain('Journal\\3a  not read');
    expect(boxes(undefined)).not.toContain('Journal');
  });
});
