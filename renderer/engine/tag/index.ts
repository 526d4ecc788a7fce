/** Numbers of labels, what carries them, and the reader that types them. */
export { checkDigits, groupedTag, pieceMost, readTag, tagText } from './tag.ts';
export type { Tag, TagReading } from './tag.ts';
export { isOfManifest, manifestTag } from './manifestTag.ts';
export { freeTags } from './freeTags.ts';
export { idleReader, quietAfterMs, readerQuiet, strokePressed, usualReader } from './keyReader.ts';
export type { ReaderSettings, ReaderTold } from './keyReader.ts';
export type { Stroke } from './stroke.ts';
export { code128Widths } from './code128.ts';
export { qrModules, qrQuiet } from './qrModules.ts';
export { symbolDots } from './printerDots.ts';
export type { PrinterDpi, SymbolDots } from './printerDots.ts';
