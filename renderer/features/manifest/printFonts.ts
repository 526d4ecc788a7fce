/** A face as it is written into a document. */
export interface PrintFace {
  family: 'Sheet' | 'SheetMono' | 'SheetMath';
  weight: string;
  unicodeRange: string | null;
  /** woff2, in base 64. */
  data: string;
}

/** Faces in the order given: the same fonts give the same text. */
export function fontRules(faces: readonly PrintFace[]): string {
  return faces
    .map(
      ({ family, weight, unicodeRange, data }) =>
        `@font-face{font-family:${family};font-style:normal;font-weight:${weight};src:url(data:font/woff2;base64,${data}) format("woff2");${unicodeRange === null ? '' : `unicode-range:${unicodeRange};`}}`,
    )
    .join('\n');
}

/** Signs the Latin cut lacks: accented letters from the extended cut, arrows, operators, ⌀ and Greek from the other face. */
export const latinExtRange =
  'U+0100-02BA,U+02BD-02C5,U+02C7-02CC,U+02CE-02D7,U+02DD-02FF,U+0304,U+0308,U+0329,U+1D00-1DBF,U+1E00-1E9F,U+1EF2-1EFF,U+2020,U+20A0-20AB,U+20AD-20C0,U+2113,U+2C60-2C7F,U+A720-A7FF';
export const mathRange = 'U+2190-22FF,U+2300-23FF,U+25A0-25FF,U+370-3FF';
