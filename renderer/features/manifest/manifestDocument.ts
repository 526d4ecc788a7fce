import type { DocumentToPrint } from '../../../shared-types/host.ts';
import { contentHash } from './contentHash.ts';
import { html, Markup, plainText } from './html.ts';
import type { Manifest, NoManifest } from './manifest.ts';
import { annex, manifestHead, manifestTable, stepTable } from './manifestBody.ts';
import { manifestOf, type ManifestRequest } from './manifestOf.ts';
import { noManifestBody } from './noManifestBody.ts';
import { pageFurniture } from './pageFurniture.ts';
import { fontRules, type PrintFace } from './printFonts.ts';
import { sheetStyle } from './sheetStyle.ts';

export interface PrintRequest extends ManifestRequest {
  paper: 'A4' | 'Letter';
  /** Of the data, ISO with its offset from UTC: "2026-11-25T10:42:00+01:00". */
  dataTime: string;
  appVersion: string;
  /** Who prepared it, as they call themselves; empty where nobody said. */
  person: string;
  fonts: readonly PrintFace[];
}

/** A manifest made from an open plan has no numbered revision, and says so where one would stand. */
const revision = 'not frozen';

/** Fonts and styles stand in the document; it can run nothing and fetch nothing. */
const policy = "default-src 'none'; style-src 'unsafe-inline'; font-src data:; img-src data:";

/** The whole manifest as one document to print: the same request, the same bytes. */
export async function manifestDocument(request: PrintRequest): Promise<DocumentToPrint> {
  const manifest = manifestOf(request);
  const hash = await contentHash(JSON.stringify(manifest));
  return documentOf(manifest, hash, request);
}

/** The same without the digest, for a hash already known. */
function documentOf(manifest: Manifest | NoManifest, hash: string, request: PrintRequest): DocumentToPrint {
  const { paper, dataTime, appVersion, person, fonts } = request;
  const sheet = 'rows' in manifest ? 'Manifest' : 'No manifest';
  const title = `${sheet}: ${plainText(manifest.title)}`;
  const furniture = pageFurniture({
    paper,
    sheet,
    title: manifest.title,
    outing: manifest.outing,
    task: manifest.task,
    revision,
    dataTime,
    appVersion,
    hash,
    units: manifest.units,
  });
  const style = new Markup(`${fontRules(fonts)}${furniture}${sheetStyle}`);
  const body =
    'rows' in manifest
      ? html`${manifestHead(manifest, person)}${manifestTable(manifest)}${stepTable(manifest)}${annex(manifest)}`
      : noManifestBody(manifest);
  const page = html`<!doctype html>
    <html lang="en">
      <head>
        <meta charset="utf-8" />
        <meta http-equiv="Content-Security-Policy" content="${new Markup(policy)}" />
        <meta name="bagwright-data-time" content="${dataTime}" />
        <title>${title}</title>
        <style>
          ${style}
        </style>
      </head>
      <body>
        ${body}
      </body>
    </html> `;
  return { title, html: page.text, paper };
}
