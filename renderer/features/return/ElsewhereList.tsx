import { Button } from '@mantine/core';
import { amountText, lineKey, placeName, shop } from '../../engine/return/index.ts';
import type { OutingThatLeft, PlannedThere, ReturnLine } from '../../engine/return/index.ts';
import type { ResolvedPlan } from '../../engine/plan/resolved.ts';

export interface ElsewhereListProps {
  /** Every outing of the task that left. */
  left: readonly OutingThatLeft[];
  /** What this outing was planned to bring home from a place. */
  comesHome: readonly PlannedThere[];
  plan: ResolvedPlan;
  onLine: (asked: { went: OutingThatLeft; line: ReturnLine; begins: `home:${string}` }) => void;
}

/** What lies at places, whoever left it there. The plan's wish stands beside it; nothing is taken as come home by itself. */
export function ElsewhereList({ left, comesHome, plan, onLine }: ElsewhereListProps) {
  const lying = left.flatMap((went) =>
    went.state.lines.flatMap((line) =>
      line.at.filter(({ how, place }) => how === 'left' && place !== shop).map((at) => ({ went, line, at })),
    ),
  );
  const missed = comesHome.filter(
    ({ item, place }) => !lying.some((one) => one.line.item === item && one.at.place === place),
  );
  if (lying.length === 0 && missed.length === 0) return null;
  return (
    <section className="bw-return-elsewhere" aria-label="What lies at places">
      <h2>Lies at places</h2>
      <ul>
        {lying.map(({ went, line, at }) => {
          const planned = comesHome.find(({ item, place }) => item === line.item && place === at.place);
          return (
            <li key={`${went.revision.id} ${went.outing} ${lineKey(line)} ${at.place}`}>
              <p>
                <bdi>{line.thing.name}</bdi> <span className="bw-code">{line.item}</span>:{' '}
                {amountText(at, line.thing.parts)} at <bdi>{placeName(at.place, plan)}</bdi> since{' '}
                <bdi>{plan.outings.find(({ id }) => id === went.outing)?.name ?? went.outing}</bdi>
                {planned === undefined ? '' : `; planned to come home with this outing: ${planned.pieces}`}.
              </p>
              <Button onClick={() => onLine({ went, line, begins: `home:${at.place}` })}>
                <span className="bw-hidden">{line.item}: </span>It is not there any more…
              </Button>
            </li>
          );
        })}
        {missed.map(({ item, place, pieces }) => (
          <li key={`${item} ${place}`}>
            <p>
              <span className="bw-code">{item}</span>: planned to bring {pieces} home from{' '}
              <bdi>{placeName(place, plan)}</bdi>; no event says that any lies there.
            </p>
          </li>
        ))}
      </ul>
    </section>
  );
}
