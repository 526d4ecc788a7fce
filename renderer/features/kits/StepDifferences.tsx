import type { StepsCompared } from '../../engine/kits/index.ts';
import { countOf } from '../catalog/words.ts';
import { fieldWords } from '../import/importWords.ts';

/** The steps of two tasks: those that only one has, and field by field those that differ. */
export function StepDifferences({ compared, heads }: { compared: StepsCompared; heads: readonly [string, string] }) {
  const { onlyMine, onlyTheirs, differ, same } = compared;
  const named = (steps: StepsCompared['onlyMine']): string =>
    steps.length === 0
      ? 'none'
      : steps.map(({ code, name }) => (name === undefined ? code : `${code} ${name}`)).join(', ');
  return (
    <section aria-label="Steps of the two tasks">
      <h2>
        Steps of the two tasks{' '}
        <span className="bw-second">
          {countOf(differ.length, 'step')} of one code differ, {same} the same
        </span>
      </h2>
      <p dir="auto">
        <b>Only in {heads[0]}:</b> {named(onlyMine)}
      </p>
      <p dir="auto">
        <b>Only in {heads[1]}:</b> {named(onlyTheirs)}
      </p>
      {differ.length === 0 ? null : (
        <div className="bw-task-scroll" role="region" aria-label="Fields of steps that differ" tabIndex={0}>
          <table className="bw-task-table bw-kits-table">
            <thead>
              <tr>
                <th scope="col">Step</th>
                <th scope="col">Field</th>
                <th scope="col">{heads[0]}</th>
                <th scope="col">{heads[1]}</th>
              </tr>
            </thead>
            <tbody>
              {differ.map(({ mine, fields }) =>
                fields.map(({ path, here, file }, index) => (
                  <tr key={`${mine.id} ${path}`}>
                    {index > 0 ? null : (
                      <th scope="rowgroup" rowSpan={fields.length} dir="auto">
                        {mine.name ?? mine.code}
                      </th>
                    )}
                    <td>{fieldWords(path)}</td>
                    <td dir="auto">{here ?? 'not said'}</td>
                    <td dir="auto">{file ?? 'not said'}</td>
                  </tr>
                )),
              )}
            </tbody>
          </table>
        </div>
      )}
    </section>
  );
}
