import type { DocumentToPrint } from '../../../shared-types/host.ts';
import { html, Markup } from './html.ts';
import { fontRules, type PrintFace } from './printFonts.ts';

/** Fonts and styles stand in the document; it can run nothing and fetch nothing. */
const policy = "default-src 'none'; style-src 'unsafe-inline'; font-src data:; img-src data:";

/** A whole document to print, out of its parts: the same parts, the same bytes. */
export function printedPage(x: {
  title: string;
  paper: DocumentToPrint['paper'];
  /** Of the data, ISO with its offset from UTC. */
  dataTime: string;
  fonts: readonly PrintFace[];
  /** Rules after those of the fonts. */
  style: string;
  body: Markup;
}): DocumentToPrint {
  const { title, paper, dataTime, fonts, style, body } = x;
  const page = html`<!doctype html>
    <html lang="en">
      <head>
        <meta charset="utf-8" />
        <meta http-equiv="Content-Security-Policy" content="${new Markup(policy)}" />
        <meta name="bagwright-data-time" content="${dataTime}" />
        <title>${title}</title>
        <style>
          ${new Markup(`${fontRules(fonts)}${style}`)}
        </style>
      </head>
      <body>
        ${body}
      </body>
    </html> `;
  return { title, html: page.text, paper };
}
