import { useState } from 'react';
import { Button, NativeSelect, TextInput } from '@mantine/core';
import type { Deed, OutingEvent } from '../../../shared-types/records/revision.ts';
import { Dialog } from '../../components/Dialog/Dialog.tsx';
import { amountText, isSome, noMoreLeft, placeName, shop } from '../../engine/return/index.ts';
import type { ReturnLine } from '../../engine/return/index.ts';
import type { ResolvedPlan } from '../../engine/plan/resolved.ts';

export interface LineDialogProps {
  line: ReturnLine;
  plan: ResolvedPlan;
  /** Of the revision under which it went out. */
  events: readonly OutingEvent[];
  /** What it begins with; absent: counted in. */
  begins?: Choice;
  /** Of the one piece whose label was read. */
  label?: string;
  at: string;
  /** Words of the event that can be taken back, and its number. */
  last: { no: number; words: string } | null;
  closed: boolean;
  /** In the record: "brought home with Second outing". */
  homeWith: string;
  onDone: (title: string, deeds: readonly Deed[], gone?: { place: string; pieces: number; parts: number }) => void;
  onClose: () => void;
}

/** What has become of it. With a place behind it where something lies. */
export type Choice = 'back' | 'left' | 'used' | 'seen' | 'take-back' | `home:${string}` | `gone:${string}`;

const elsewhere = '\u0000elsewhere';

/** A whole number as it is typed; null for anything else. */
function wholeOf(typed: string): number | null {
  return /^\d{1,7}$/.test(typed.trim()) ? Number(typed.trim()) : null;
}

/** What has become of a line, beyond one piece that is counted in: pieces, parts, where. */
export function LineDialog(props: LineDialogProps) {
  const { line, plan, events, begins, label: read, at, last, closed, homeWith, onDone, onClose } = props;
  const { thing, open } = line;
  const lies = line.at.filter(({ how }) => how === 'left');
  const [choice, setChoice] = useState<Choice>(
    begins ?? (isSome(open) ? 'back' : lies[0] === undefined ? 'take-back' : `home:${lies[0].place}`),
  );
  const [kind, liesAt = ''] = splitOnce(choice);
  const there = lies.find(({ place }) => place === liesAt);
  const first = there ?? open;
  const [typed, setTyped] = useState(
    read === undefined
      ? { pieces: String(first.pieces), parts: String(first.parts) }
      : { pieces: '1', parts: String(thing.parts) },
  );
  const [place, setPlace] = useState(at);
  const [words, setWords] = useState('');
  const [asked, setAsked] = useState(false);
  const choose = (next: Choice): void => {
    const [, to = ''] = splitOnce(next);
    const amount = lies.find((one) => one.place === to) ?? open;
    setChoice(next);
    setTyped({ pieces: String(amount.pieces), parts: String(amount.parts) });
    if (next === 'left' && place === shop) setPlace(plan.source.places?.[0]?.id ?? elsewhere);
    if (next === 'back' || next.startsWith('home:')) setPlace(next === 'back' ? at : shop);
  };
  const counts = kind !== 'seen' && kind !== 'take-back';
  const hasPlace = kind === 'back' || kind === 'left' || kind === 'seen' || kind === 'home';
  const places = [
    ...(kind === 'left' ? [] : [{ value: shop, label: 'the shop' }]),
    ...(plan.source.places ?? []).map(({ id }) => ({ value: id, label: placeName(id, plan) })),
    { value: elsewhere, label: 'another place…' },
  ];
  const pieces = wholeOf(typed.pieces);
  const parts = thing.parts === 1 ? pieces : wholeOf(typed.parts);
  const where = place === elsewhere ? words.trim() : place;
  const lacks = {
    pieces: counts && pieces === null ? 'Pieces: write a whole number, as 2.' : undefined,
    parts: counts && parts === null ? 'Parts: write a whole number, as 6.' : undefined,
    place: hasPlace && where === '' ? 'Place: write what it is called.' : undefined,
  };
  const send = (): void => {
    setAsked(true);
    if (Object.values(lacks).some((fault) => fault !== undefined)) return;
    const amount = { pieces: pieces ?? 0, parts: parts ?? 0 };
    const of = { bag: line.bag, item: line.item };
    const title = `${verbs[kind] ?? 'Return'} ${line.item}`;
    const noMore = (reason: string): Deed[] => noMoreLeft(line, events, { place: liesAt, amount, reason });
    switch (kind) {
      case 'back':
        return onDone(title, [
          {
            kind,
            ...of,
            ...amount,
            place: where,
            ...(read !== undefined && amount.pieces === 1 ? { label: read } : {}),
          },
        ]);
      case 'left':
        return onDone(title, [{ kind, ...of, ...amount, place: where }]);
      case 'used':
        return onDone(title, [{ kind: 'used', ...of, ...amount }]);
      case 'seen':
        return onDone(title, [{ kind: 'seen', ...of, place: where }]);
      case 'take-back':
        return last === null ? onClose() : onDone(title, [{ kind: 'taken-back', of: last.no }]);
      case 'home':
        return onDone(title, [...noMore(homeWith), { kind: 'back', ...of, ...amount, place: where }]);
      default:
        return onDone(
          title,
          [
            ...noMore('not there any more'),
            { kind: 'seen', ...of, place: liesAt, words: 'lay there, and is not there any more' },
          ],
          { place: liesAt, ...amount },
        );
    }
  };
  const choices: { value: Choice; label: string; hint?: string }[] = [
    ...(isSome(open) || line.at.some((one) => one.how === 'back' && one.place !== shop)
      ? [{ value: 'back' as const, label: 'It is back' }]
      : []),
    ...(isSome(open) ? [{ value: 'left' as const, label: 'It stays out there on purpose' }] : []),
    ...(isSome(open) && thing.consumed === true ? [{ value: 'used' as const, label: 'It is used up' }] : []),
    ...(isSome(open) ? [{ value: 'seen' as const, label: 'It was seen, and is not here' }] : []),
    ...lies.flatMap((one): { value: Choice; label: string }[] => [
      { value: `home:${one.place}`, label: `It came home from ${placeName(one.place, plan)}` },
      { value: `gone:${one.place}`, label: `It is not at ${placeName(one.place, plan)} any more` },
    ]),
    ...(last === null ? [] : [{ value: 'take-back' as const, label: `Take back: ${last.words}` }]),
  ];
  return (
    <Dialog title={`${line.item}: what has become of it?`} onClose={onClose} className="bw-return-dialog">
      <form
        noValidate
        onSubmit={(event) => {
          event.preventDefault();
          send();
        }}
      >
        <p>
          <bdi>{thing.name}</bdi>: {amountText(line.out, thing.parts)} went out,{' '}
          {isSome(open) ? `${amountText(open, thing.parts)} open` : 'nothing open'}.
        </p>
        <fieldset className="bw-return-choices">
          <legend className="bw-hidden">What has become of it</legend>
          {choices.map(({ value, label }) => (
            <label key={value}>
              <input type="radio" name="became" checked={choice === value} onChange={() => choose(value)} />
              <span>{label}</span>
            </label>
          ))}
        </fieldset>
        {kind === 'gone' && closed ? (
          <p>
            The return is closed: a discrepancy is opened for it at once, with this place as where it was seen last.
          </p>
        ) : null}
        {counts ? (
          <div className="bw-form-grid">
            <TextInput
              label="Pieces"
              inputMode="numeric"
              autoComplete="off"
              value={typed.pieces}
              error={asked ? lacks.pieces : undefined}
              onChange={({ currentTarget: { value } }) => {
                const count = wholeOf(value);
                setTyped({ pieces: value, parts: count === null ? typed.parts : String(count * thing.parts) });
              }}
            />
            {thing.parts === 1 ? null : (
              <TextInput
                label="Parts in all"
                description={`${thing.parts} parts make one piece`}
                inputMode="numeric"
                autoComplete="off"
                value={typed.parts}
                error={asked ? lacks.parts : undefined}
                onChange={({ currentTarget }) => setTyped({ ...typed, parts: currentTarget.value })}
              />
            )}
          </div>
        ) : null}
        {hasPlace ? (
          <div className="bw-form-grid">
            <NativeSelect
              label="Where"
              value={place}
              data={places}
              onChange={({ currentTarget }) => setPlace(currentTarget.value)}
            />
            {place === elsewhere ? (
              <TextInput
                label="Which place"
                maxLength={200}
                autoComplete="off"
                value={words}
                error={asked ? lacks.place : undefined}
                onChange={({ currentTarget }) => setWords(currentTarget.value)}
              />
            ) : null}
          </div>
        ) : null}
        <div className="bw-form-foot">
          <Button type="submit" variant="filled" size="lg">
            {verbs[kind] ?? 'Keep'} {line.item}
          </Button>
          <Button size="lg" onClick={onClose}>
            Leave it
          </Button>
        </div>
      </form>
    </Dialog>
  );
}

const verbs: Partial<Record<string, string>> = {
  back: 'Count in',
  left: 'Leave',
  used: 'Use up',
  seen: 'Say where',
  'take-back': 'Take back for',
  home: 'Bring home',
  gone: 'Miss',
};

function splitOnce(choice: Choice): [string, string?] {
  const at = choice.indexOf(':');
  return at === -1 ? [choice] : [choice.slice(0, at), choice.slice(at + 1)];
}
