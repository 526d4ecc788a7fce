import type { Mapping } from '../../engine/tableImport/index.ts';
import type { TableShown } from '../../workers/tableImport.ts';

/** The first rows as they stand in the file. */
export function FirstRows({ shown, mapping }: { shown: TableShown; mapping: Mapping }) {
  return (
    <details className="bw-table-first">
      <summary>
        The first {shown.first.length} of {shown.rows} rows, as they stand
      </summary>
      <div className="bw-table-scroll" tabIndex={0} role="region" aria-label="First rows of the file">
        <table className="bw-table-rows">
          <thead>
            <tr>
              <th scope="col">Row</th>
              {shown.names.map((name, at) => (
                <th key={at} scope="col">
                  {name}
                  <div className="bw-second">{mapping[at]?.column ?? 'kept as it is'}</div>
                </th>
              ))}
            </tr>
          </thead>
          <tbody>
            {shown.first.map(({ row, cells }) => (
              <tr key={row}>
                <th scope="row">{row}</th>
                {cells.map((cell, at) => (
                  <td key={at}>{cell}</td>
                ))}
              </tr>
            ))}
          </tbody>
        </table>
      </div>
    </details>
  );
}
