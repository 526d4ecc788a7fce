/** The size called out for the wrench, and its words: a width across flats, or a hexalobular size. */
export type Wrench = { mm: number; text: string } | { hexalobular: string; text: string };
