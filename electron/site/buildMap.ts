/**
 * The list of files a build made, with their fingerprints. A host reads every listed file into memory at start and
 * serves from there: a path that is not in the list does not exist, whatever lies on the disk.
 */
import { createHash } from 'node:crypto';
import { lstatSync, readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';

export const mapFileName = 'files.json';

export interface ListedFile {
  /** From the site's root, with slashes: `assets/index-1a2b.js`. */
  path: string;
  bytes: number;
  sha256: string;
}

export interface SiteFile {
  bytes: Buffer;
  mediaType: string;
  /** Named by its content, so that it may be kept for ever. */
  named: boolean;
}

export interface Site {
  page: string;
  /** By the path a request names, leading slash included. */
  files: ReadonlyMap<string, SiteFile>;
}

class BuildError extends Error {
  override readonly name = 'BuildError';
}

const mediaTypes: Readonly<Record<string, string>> = {
  html: 'text/html; charset=utf-8',
  js: 'text/javascript; charset=utf-8',
  mjs: 'text/javascript; charset=utf-8',
  css: 'text/css; charset=utf-8',
  wasm: 'application/wasm',
  json: 'application/json; charset=utf-8',
  svg: 'image/svg+xml',
  png: 'image/png',
  ico: 'image/x-icon',
  woff2: 'font/woff2',
  woff: 'font/woff',
  ttf: 'font/ttf',
  txt: 'text/plain; charset=utf-8',
  bcmap: 'application/octet-stream',
  pfb: 'application/octet-stream',
};

/** What a listed name may look like: it needs no decoding, and it cannot climb. */
const plainName = /^(?:[A-Za-z0-9_@-][A-Za-z0-9_.@-]*\/)*[A-Za-z0-9_@-][A-Za-z0-9_.@-]*$/;

/** Lists a finished build. Refuses what it could not serve: links, odd names, endings it has no type for. */
export function listFiles(folder: string): ListedFile[] {
  const entries = readdirSync(folder, { recursive: true, withFileTypes: true });
  return entries
    .filter((entry) => !entry.isDirectory())
    .map((entry) => {
      const path = join(entry.parentPath, entry.name)
        .slice(folder.length + 1)
        .replaceAll('\\', '/');
      const bytes = readListed(folder, path);
      mediaTypeOf(path);
      return { path, bytes: bytes.length, sha256: fingerprint(bytes) };
    })
    .toSorted((a, b) => (a.path < b.path ? -1 : 1));
}

/** Reads the listed files and checks each against its fingerprint. */
export function loadSite(folder: string, listed: readonly ListedFile[]): Site {
  const files = new Map<string, SiteFile>();
  let page: string | null = null;
  for (const { path, bytes: length, sha256 } of listed) {
    const bytes = readListed(folder, path);
    if (bytes.length !== length || fingerprint(bytes) !== sha256) {
      throw new BuildError(`${path} is not the file the build made; run "npm run build" again`);
    }
    if (path === 'index.html') page = bytes.toString('utf8');
    else files.set(`/${path}`, { bytes, mediaType: mediaTypeOf(path), named: path.startsWith('assets/') });
  }
  if (page === null) throw new BuildError('the build has no index.html; run "npm run build" again');
  return { page, files };
}

export function readMap(mapFile: string): ListedFile[] {
  let read: unknown;
  try {
    read = JSON.parse(readFileSync(mapFile, 'utf8'));
  } catch (cause) {
    throw new BuildError(`there is no finished build (${String(cause)}); run "npm run build"`);
  }
  if (!Array.isArray(read) || !read.every(isListed)) {
    throw new BuildError(`${mapFile} is not a list of built files; run "npm run build" again`);
  }
  return read;
}

function isListed(value: unknown): value is ListedFile {
  if (typeof value !== 'object' || value === null) return false;
  const { path, bytes, sha256 } = value as Record<keyof ListedFile, unknown>;
  return typeof path === 'string' && typeof bytes === 'number' && typeof sha256 === 'string';
}

function readListed(folder: string, path: string): Buffer {
  if (!plainName.test(path)) throw new BuildError(`the build holds a name it must not serve: ${path}`);
  // Every step of the way is looked at: a link anywhere in it could lead out of the build.
  const steps = path.split('/');
  steps.forEach((_, index) => {
    if (lstatSync(join(folder, ...steps.slice(0, index + 1))).isSymbolicLink()) {
      throw new BuildError(`the build holds a link, which is never followed: ${path}`);
    }
  });
  return readFileSync(join(folder, ...steps));
}

function mediaTypeOf(path: string): string {
  const ending = path.slice(path.lastIndexOf('.') + 1).toLowerCase();
  const mediaType = mediaTypes[ending];
  if (mediaType === undefined) throw new BuildError(`the build holds a file of a kind it cannot serve: ${path}`);
  return mediaType;
}

function fingerprint(bytes: Buffer): string {
  return createHash('sha256').update(bytes).digest('hex');
}
