import type { ReactNode } from 'react';
import { formulaText, readFormula, type FormulaPart } from './formula.ts';

/** A formula as a book sets it: symbols of quantities slanted, everything else upright. */
export function Formula({ text }: { text: string }) {
  return (
    <span className="bw-formula" role="math" aria-label={formulaText(text)}>
      {partsOf(readFormula(text))}
    </span>
  );
}

function partsOf(parts: readonly FormulaPart[]): ReactNode {
  return parts.map((part, index) => <Part key={index} part={part} />);
}

function Part({ part }: { part: FormulaPart }) {
  if (part.is === 'text') return part.text;
  if (part.is === 'symbol') return <i>{part.text}</i>;
  if (part.is === 'fraction')
    return (
      <span className="bw-formula-fraction">
        <span>{partsOf(part.above)}</span>
        <span>{partsOf(part.below)}</span>
      </span>
    );
  if (part.is === 'root')
    return (
      <span className="bw-formula-root">
        √<span>{partsOf(part.inner)}</span>
      </span>
    );
  return part.is === 'sub' ? <sub>{partsOf(part.inner)}</sub> : <sup>{partsOf(part.inner)}</sup>;
}
