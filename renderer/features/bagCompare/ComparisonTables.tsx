import { useMemo } from 'react';
import type { PastAnswer } from '../../../shared-types/records/window.ts';
import type { UnitsShown } from '../../engine/units/index.ts';
import { amountText } from '../bag/amounts.ts';
import { countOf } from '../steps/words.ts';
import { compareAnswers } from './compareAnswers.ts';
import type { BagDifference, BagSum, LineDifference } from './compareAnswers.ts';
import { lyingText, outcomeText, signedText } from './compareWords.ts';

export interface ComparisonTablesProps {
  one: PastAnswer;
  other: PastAnswer;
  /** Of one unit. */
  units: UnitsShown;
}

const kindWords: Record<LineDifference['kind'], string> = {
  'only-one': 'only in one',
  'only-other': 'only in the other',
  quantity: 'other quantity',
  bag: 'other bag',
};

/** Totals and bags first, then every line that is not the same in both. */
export function ComparisonTables({ one, other, units }: ComparisonTablesProps) {
  const compared = useMemo(() => compareAnswers(one, other), [one, other]);
  const { lines, same, bags, massKg, pieces } = compared;
  const names = new Map([one, other].flatMap(({ outings }) => outings.map(({ id, name }) => [id, name] as const)));
  const bagNames = new Map(
    [one, other].flatMap(({ outings }) =>
      outings.flatMap((outing) => outing.bags.map(({ id, name }) => [id, name] as const)),
    ),
  );
  const outingName = (id: string): string => names.get(id) ?? id;
  const bagName = (id: string): string => bagNames.get(id) ?? id;
  const several = names.size > 1;
  return (
    <>
      <table className="bw-checks bw-compare">
        <caption className="bw-hidden">Totals and bags of the two</caption>
        <thead>
          <tr>
            <th scope="col">What</th>
            <th scope="col">One</th>
            <th scope="col">The other</th>
            <th scope="col">Difference</th>
          </tr>
        </thead>
        <tbody>
          <tr>
            <th scope="row">Answer</th>
            <td data-label="one">{outcomeText(one, units)}</td>
            <td data-label="the other">{outcomeText(other, units)}</td>
            <td data-label="difference">{answersDifference(one, other, units)}</td>
          </tr>
          <tr>
            <th scope="row">Mass with the bags</th>
            <td data-label="one">{amountText(massKg.one, 'kg', units)}</td>
            <td data-label="the other">{amountText(massKg.other, 'kg', units)}</td>
            <td data-label="difference">{signedText(massKg.other - massKg.one, 'kg', units)}</td>
          </tr>
          <tr>
            <th scope="row">Pieces</th>
            <td data-label="one">{pieces.one}</td>
            <td data-label="the other">{pieces.other}</td>
            <td data-label="difference">{signedText(pieces.other - pieces.one, 'pieces', units)}</td>
          </tr>
          {bags.map((bag) => (
            <tr key={`${bag.outing} ${bag.id}`}>
              <th scope="row">
                {bag.name}
                {several ? `, ${outingName(bag.outing)}` : ''}
              </th>
              <td data-label="one">{sumText(bag.one, units)}</td>
              <td data-label="the other">{sumText(bag.other, units)}</td>
              <td data-label="difference">{bagDifference(bag, units)}</td>
            </tr>
          ))}
        </tbody>
      </table>
      {lines.length === 0 ? (
        <p>Every line is the same in both: {countOf(same, 'line')}.</p>
      ) : (
        <>
          <table className="bw-checks bw-compare">
            <caption className="bw-hidden">Lines that differ</caption>
            <thead>
              <tr>
                <th scope="col">Item</th>
                <th scope="col">How</th>
                <th scope="col">One</th>
                <th scope="col">The other</th>
                <th scope="col">Difference</th>
              </tr>
            </thead>
            <tbody>
              {lines.map((line) => (
                <tr key={`${line.outing} ${line.id}`}>
                  <th scope="row">
                    {line.name} <span className="bw-code bw-second">{line.id}</span>
                    {several ? <span className="bw-second">, {outingName(line.outing)}</span> : null}
                  </th>
                  <td data-label="how">{kindWords[line.kind]}</td>
                  <td data-label="one">{lyingText(line.one, bagName)}</td>
                  <td data-label="the other">{lyingText(line.other, bagName)}</td>
                  <td data-label="difference">{lineDifference(line, units)}</td>
                </tr>
              ))}
            </tbody>
          </table>
          <p className="bw-second">
            {countOf(lines.length, 'line differs', 'lines differ')}, {same} the same.
          </p>
        </>
      )}
    </>
  );
}

function answersDifference(one: PastAnswer, other: PastAnswer, units: UnitsShown): string {
  if (one.objective === null || other.objective === null) return 'nothing to compare';
  if (one.objective.unit !== other.objective.unit) return 'least in different things';
  return signedText(other.objective.value - one.objective.value, one.objective.unit, units);
}

function sumText(sum: BagSum | null, units: UnitsShown): string {
  return sum === null
    ? 'not taken'
    : `${amountText(sum.contentsKg, 'kg', units)}, ${amountText(sum.pieces, 'pieces', units)}`;
}

function bagDifference({ one, other }: BagDifference, units: UnitsShown): string {
  const massKg = (other?.contentsKg ?? 0) - (one?.contentsKg ?? 0);
  const pieces = (other?.pieces ?? 0) - (one?.pieces ?? 0);
  const [mass, count] = [signedText(massKg, 'kg', units), signedText(pieces, 'pieces', units)];
  return mass === count ? mass : `${mass}, ${count}`;
}

function lineDifference({ kind, pieces, massKg }: LineDifference, units: UnitsShown): string {
  if (kind === 'bag') return 'no other quantity';
  return `${signedText(pieces, 'pieces', units)}, ${signedText(massKg, 'kg', units)}`;
}
