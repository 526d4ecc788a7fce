/**
 * The cell of a column, however the header spells it: case and blanks around a name do not tell two columns apart.
 *
 * @returns empty where there is none
 */
export function cellNamed(cells: Readonly<Record<string, string>>, name: string): string {
  const exact = cells[name];
  if (exact !== undefined) return exact.trim();
  const column = columnNamed(Object.keys(cells), name);
  return column === undefined ? '' : (cells[column] ?? '').trim();
}

/** The column that a header spells so; undefined where it has none. */
export function columnNamed(columns: readonly string[], name: string): string | undefined {
  return columns.find((column) => column === name) ?? columns.find((column) => squeezed(column) === squeezed(name));
}

function squeezed(name: string): string {
  return name.trim().toLowerCase();
}
