import type { DocumentToPrint } from '../../../shared-types/host.ts';
import { bagMapFigures } from './bagMapFigures.ts';
import { contentHash } from './contentHash.ts';
import { html, plainText } from './html.ts';
import { knownBlock } from './knownBlock.ts';
import type { Manifest, NoManifest } from './manifest.ts';
import { annex, manifestHead, manifestTable, stepTable } from './manifestBody.ts';
import { manifestOf, type ManifestRequest } from './manifestOf.ts';
import { noManifestBody } from './noManifestBody.ts';
import { pageFurniture } from './pageFurniture.ts';
import { printedPage } from './printedPage.ts';
import { contentCell, frozenWords, revisionCell } from './printedRevision.ts';
import type { PrintFace } from './printFonts.ts';
import type { PrintedHead } from './useJournalHead.ts';
import { sheetStyle } from './sheetStyle.ts';

export interface PrintRequest extends ManifestRequest {
  paper: 'A4' | 'Letter';
  /** Of the data, ISO with its offset from UTC: "2026-11-25T10:42:00+01:00". */
  dataTime: string;
  appVersion: string;
  /** Who prepared it, as they call themselves; empty where nobody said. */
  person: string;
  fonts: readonly PrintFace[];
  journal?: PrintedHead;
  /** What earlier outings say, in sentences; it is no part of what was frozen. */
  known?: readonly string[] | undefined;
}

/** The whole manifest as one document to print: the same request, the same bytes. */
export async function manifestDocument(request: PrintRequest): Promise<DocumentToPrint> {
  const manifest = manifestOf(request);
  const { known = [] } = request;
  const hash = await contentHash(JSON.stringify(known.length === 0 ? manifest : { manifest, known }));
  return documentOf(manifest, hash, request);
}

/** The same without the digest, for a hash already known. */
function documentOf(manifest: Manifest | NoManifest, hash: string, request: PrintRequest): DocumentToPrint {
  const { paper, dataTime, appVersion, person, fonts, journal, frozen, map, known = [] } = request;
  const sheet = 'rows' in manifest ? 'Manifest' : 'No manifest';
  const title = `${sheet}: ${plainText(manifest.title)}`;
  const furniture = pageFurniture({
    paper,
    sheet,
    title: manifest.title,
    outing: manifest.outing,
    task: manifest.task,
    revision: revisionCell(frozen),
    dataTime,
    appVersion,
    hash: contentCell(frozen, hash),
    units: manifest.units,
    journal,
  });
  const body =
    'rows' in manifest
      ? html`${manifestHead(manifest, person)}${frozen === undefined ? null : frozenWords(frozen)}${known.length === 0 ? null : knownBlock(known, journal)}${manifestTable(manifest)}${stepTable(manifest)}${map === undefined || map.bags.length === 0 ? null : bagMapFigures(request.plan, map)}${annex(manifest)}`
      : noManifestBody(manifest);
  return printedPage({ title, paper, dataTime, fonts, style: `${furniture}${sheetStyle}`, body });
}
