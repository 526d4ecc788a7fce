import type { Tally } from '../../store/store.ts';
import { grouped } from './grouped.ts';

export interface ChainDrawingProps {
  journal: Tally;
  found: Tally | null;
}

const left = 118;
const right = 590;

/** How far journal and working copy have come, to one scale: the thick part is what is there, the rest is lacking. */
export function ChainDrawing({ journal, found }: ChainDrawingProps) {
  const end = Math.max(journal.seq, found?.seq ?? 0, 1);
  const at = (seq: number): number => left + ((right - left) * seq) / end;
  const rows = [
    { name: 'Journal', seq: journal.seq, y: 26 },
    { name: 'Working copy', seq: found?.seq ?? null, y: 66 },
  ];
  const said = rows
    .map(({ name, seq }) => `${name}: ${seq === null ? 'no answer' : `entry ${grouped(seq)}`}`)
    .join('. ');
  return (
    <svg className="bw-chain" viewBox="0 0 720 92" role="img" aria-label={said}>
      {rows.map(({ name, seq, y }) => (
        <g key={name}>
          <text x={left - 14} y={y + 4} textAnchor="end" className="name">
            {name}
          </text>
          <path
            className="thin"
            d={`M${left} ${y - 12}V${y + 12}M${right} ${y - 12}V${y + 12}M${left} ${y}H${right}`}
          />
          {seq === null ? (
            <text x={(left + right) / 2} y={y - 6} textAnchor="middle">
              no answer
            </text>
          ) : (
            <>
              <path className="thick" d={`M${left} ${y}H${at(seq)}`} />
              <path className="end" d={`M${at(seq)} ${y - 9}V${y + 9}`} />
            </>
          )}
          <text x={right + 12} y={y + 4}>
            {seq === null ? '' : `to entry ${grouped(seq)}`}
          </text>
        </g>
      ))}
    </svg>
  );
}
