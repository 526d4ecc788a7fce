import type { Citation } from '../../../shared-types/handbook.ts';
import { RefusedError } from '../errors.ts';
import { sameDocument } from '../handbook/documents.ts';
import { headTables } from '../handbook/heads.ts';
import { citationOf } from '../handbook/rows.ts';

const table = headTables['hexalobular-iso-10664'];

export interface HexalobularDrive {
  /** "T30" */
  nominal: string;
  /** Dimension A, the outer reference diameter of the six lobes [mm]: no width across flats. */
  referenceAMm: number;
  citation: Citation;
}

/**
 * A hexalobular internal drive by its own size.
 *
 * @param x.size - "T30", in either case; a thread is refused, for no table held gives a thread its drive
 * @param x.document - number of the standard, as a person writes it
 * @returns the size and dimension A [mm]. A drive of six lobes has no flats: nothing stands for a width across them.
 * @throws RefusedError not-held where the document or the size is not held, naming what is
 * @source ISO 10664, Table 1, dimension A; hexalobular-iso-10664 in data/SOURCES.md; text found in open datasets
 * @validity the sizes printed, T6 to T100; dimension B is not held, because two datasets differ
 * @example hexalobularDrive({ size: 'T30' }).referenceAMm // 5.6
 */
export function hexalobularDrive(x: { size: string; document?: string }): HexalobularDrive {
  const { document } = x;
  if (document !== undefined && ![table.source.number, ...table.aliases].some((name) => sameDocument(document, name))) {
    throw new RefusedError({
      code: 'not-held',
      message: `No table of hexalobular drives of "${document}" is held. Held is: ${table.source.number}.`,
      field: 'standard',
      value: document,
    });
  }
  const size = x.size.replace(/\s+/g, '').toUpperCase();
  const row = table.rows.find((held) => held.hexalobular_size === size);
  if (row) return { nominal: size, referenceAMm: row.A_reference_mm, citation: citationOf(table) };
  throw new RefusedError({
    code: 'not-held',
    message:
      `${table.source.number} holds hexalobular drives by their own size, and no table held gives a thread its drive: ` +
      `"${x.size.slice(0, 80)}" is none of ${table.rows.map((held) => held.hexalobular_size).join(', ')}.`,
    field: 'thread',
    value: x.size.slice(0, 80),
  });
}
