import { useState } from 'react';
import type { ReactNode } from 'react';
import type { Refusal } from '../../../shared-types/errors.ts';
import type { MergeOfPlan } from '../../engine/records/mergeOfPlan.ts';
import type { Missing } from '../../engine/records/readableTask.ts';
import type { Differing } from '../../engine/records/merged.ts';
import { countOf } from '../steps/words.ts';
import { countRows, differingOf, fieldWords, tableWords } from './importWords.ts';

export interface DryRunProps {
  merge: MergeOfPlan;
  differing: 'keep' | 'take';
  /** Fields of the file that are not kept. */
  ignored: readonly string[];
  /** What the file's steps do not say yet. */
  unfinished: readonly Refusal[];
}

/** What would be written, before it is. */
export function DryRun({ merge, differing, ignored, unfinished }: DryRunProps) {
  const differ = differingOf(merge);
  const mend = merge.missing.filter((one) => !isUnsaid(one));
  return (
    <>
      <div className="bw-import-scroll">
        <table className="bw-import-counts" aria-label="What the file would change">
          <thead>
            <tr>
              <th scope="col">In the file</th>
              <th scope="col">Added</th>
              <th scope="col">{differing === 'take' ? 'Changed' : 'Differ, kept as here'}</th>
              <th scope="col">Same</th>
              <th scope="col">Only here, left alone</th>
            </tr>
          </thead>
          <tbody>
            {countRows(merge).map(({ what, add, differ: differs, same, onlyHere }) => (
              <tr key={what}>
                <th scope="row">{what}</th>
                <td>{add}</td>
                <td>{differs}</td>
                <td>{same}</td>
                <td>{onlyHere}</td>
              </tr>
            ))}
          </tbody>
        </table>
      </div>
      {differ.length === 0 ? null : (
        <Lines
          title={`${countOf(differ.length, 'entry', 'entries')} that differ: here → file`}
          lines={differ.map(difference)}
        />
      )}
      {unfinished.length === 0 ? null : (
        <Lines
          title={`${countOf(unfinished.length, 'field')} that steps do not say yet. The steps are kept; the bag waits for them.`}
          lines={unfinished.map(({ message, row }) => `${message}${row === undefined ? '' : ` (row ${row})`}`)}
        />
      )}
      {mend.length === 0 ? null : (
        <Lines
          title={`${countOf(mend.length, 'thing')} to mend afterwards, before a bag is planned`}
          lines={mend.map(missingLine)}
        />
      )}
      {ignored.length === 0 ? null : (
        <Lines
          title={`${countOf(ignored.length, 'field')} of the file not known here, and not kept`}
          lines={ignored.map((path) => (
            <span key={path} className="bw-code">
              {path}
            </span>
          ))}
        />
      )}
    </>
  );
}

/** What a step leaves unsaid is told of the file already. */
function isUnsaid({ table, reason }: Missing): boolean {
  return table === 'steps' && reason.startsWith('is missing');
}

function missingLine({ code, path, reason }: Missing): string {
  return `${code}${path === '' ? '' : `, ${fieldWords(path)}`}: ${reason}`;
}

function difference({ table, code, name, fields }: Differing): ReactNode {
  const isOrder = fields.every(({ path }) => path === 'order');
  return (
    <>
      <b>{isOrder ? `The ${code}` : `${tableWords[table]} ${code}`}</b>
      {name === null || name === code ? null : <span className="bw-second"> {name}</span>}
      <ul>
        {fields.map(({ path, here, file }) => (
          <li key={path}>
            {isOrder ? null : `${fieldWords(path)}: `}
            <Said text={here} /> <span aria-label="in the file">→</span> <Said text={file} />
          </li>
        ))}
      </ul>
    </>
  );
}

function Said({ text }: { text: string | null }) {
  return text === null ? <i>not given</i> : <span>{text === '' ? 'empty' : text}</span>;
}

const shownAtFirst = 20;

function Lines({ title, lines }: { title: string; lines: readonly ReactNode[] }) {
  const [limit, setLimit] = useState(shownAtFirst);
  return (
    <section className="bw-import-lines">
      <h3>{title}</h3>
      <ul tabIndex={0} aria-label={title}>
        {lines.slice(0, limit).map((line, index) => (
          <li key={index}>{line}</li>
        ))}
      </ul>
      {lines.length > limit ? (
        <button type="button" className="bw-link" onClick={() => setLimit(limit + 200)}>
          Show {Math.min(200, lines.length - limit)} more of {lines.length}
        </button>
      ) : null}
    </section>
  );
}
