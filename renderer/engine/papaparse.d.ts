/**
 * The part of papaparse the engine uses. The package's own types bring all of Node's names into whatever imports them,
 * and in the engine a Node name must not compile; the engine's tsconfig.json points here instead.
 */
declare const Papa: {
  unparse(
    table: { fields: string[]; data: unknown[][] },
    settings?: {
      newline?: string;
      delimiter?: string;
      /** Which cells have quotation marks around them, beside those that need them. */
      quotes?: (cell: unknown) => boolean;
    },
  ): string;
  parse<Row>(
    text: string,
    settings: { delimiter: string; newline: '\n' },
  ): {
    data: Row[];
    /** `row` counts records from 0, `index` characters. */
    errors: { type: string; code: string; message: string; row?: number; index?: number }[];
  };
};
export default Papa;
