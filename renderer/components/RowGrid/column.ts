export interface GridColumn {
  key: string;
  label: string;
  /** A track of CSS grid. */
  width: string;
  end?: boolean;
  /** Left out where the grid is narrow; what it says stands in the sheet beside. */
  wideOnly?: boolean;
  /** How the rows stand by this column; absent where they are not sorted by it. */
  sorted?: 'ascending' | 'descending' | 'none';
}
