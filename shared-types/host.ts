/**
 * What the page may ask of the program around it. Electron and the browser window both implement all of it; the page
 * never names a path, and what a host cannot do it refuses by name.
 */
export interface HostInfo {
  kind: 'electron' | 'browser-window';
  version: string;
  /** Where this copy keeps its data, for the user to read; never an input. */
  dataFolder: string;
}

export interface OpenedText {
  name: string;
  text: string;
}

export interface FileToSave {
  /** A proposal; the host makes it safe for every file system. */
  name: string;
  mediaType: 'application/json' | 'text/csv' | 'application/pdf' | 'text/plain';
  bytes: Uint8Array;
}

export interface DocumentToPrint {
  title: string;
  /** A whole HTML document: styles inside, no script, nothing to fetch but the fonts the program ships. */
  html: string;
  paper: 'A4' | 'Letter';
}

export interface Host {
  info(): Promise<HostInfo>;
  /** A text file of the user's choice, or null where the choice was put off. Refuses files over `maxBytes`. */
  openText(request: { extensions: string[]; maxBytes: number }): Promise<OpenedText | null>;
  /** True once the bytes are written (browser window: handed to the browser's own download). */
  saveFile(file: FileToSave): Promise<boolean>;
  /** The document as a PDF. These bytes are shown, saved and printed; there is no second rendering. */
  makePdf(document: DocumentToPrint): Promise<Uint8Array>;
  /** Opens these very bytes where the system's print dialogue is one key away. */
  printPdf(file: { name: string; bytes: Uint8Array }): Promise<{ opened: boolean; address: string | null }>;
}
