/** The colours that a system asks for. */
export interface Look {
  colorScheme: 'light' | 'dark';
  forcedColors: 'none' | 'active';
}
