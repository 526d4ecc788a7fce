export const delimiters = [',', ';', '\t'] as const;
export type Delimiter = (typeof delimiters)[number];

export const delimiterNames: Record<Delimiter, string> = { ',': 'comma', ';': 'semicolon', '\t': 'tab' };
