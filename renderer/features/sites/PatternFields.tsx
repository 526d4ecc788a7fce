import { useState } from 'react';
import { PatternPlan } from '../../components/PatternPlan/PatternPlan.tsx';
import type { PlaceDeeds } from '../../components/PatternPlan/PlanMarks.tsx';
import { ChoiceField } from '../../components/Fields/ChoiceField.tsx';
import { TextField } from '../../components/Fields/TextField.tsx';
import { YesNoField } from '../../components/Fields/YesNoField.tsx';
import { QuantityField } from '../../components/QuantityField/QuantityField.tsx';
import type { RecordFormState } from '../../components/RecordForm/useRecordForm.ts';
import { RowsField } from '../../components/RowsField/RowsField.tsx';
import type { Turn } from '../../engine/pattern/index.ts';
import type { UnitsShown } from '../../engine/units/index.ts';
import { OrderFields } from './OrderFields.tsx';
import { countIn, draftOf, nextPosition, placeText, planOf, shifted, textOf } from './patternDraft.ts';
import type { PatternDraft, TypedPlace } from './patternDraft.ts';

const kinds = [
  { value: 'none', label: 'Not said' },
  { value: 'circle', label: 'Circle' },
  { value: 'grid', label: 'Rectangle, rows and columns' },
  { value: 'frame', label: 'Rectangle, its rim alone' },
  { value: 'points', label: 'Free, each at its own place' },
  { value: 'words', label: 'In words' },
] as const;

const turns = [
  { value: 'clockwise', label: 'Clockwise' },
  { value: 'counterclockwise', label: 'Counterclockwise' },
] as const;

export interface PatternFieldsProps {
  form: RecordFormState;
  /** "interface B" */
  name: string;
  units: UnitsShown;
}

/** Where the positions of an interface lie and the order they are tightened in, with the drawing beside. */
export function PatternFields({ form, name, units }: PatternFieldsProps) {
  const { id, label, error, value: text = '' } = form.text('pattern', 'Pattern');
  const [typed, setTyped] = useState(() => draftOf(text));
  // A text that came from elsewhere, as by beginning again, replaces what was typed.
  const draft = textOf(typed) === text ? typed : draftOf(text);
  const kept = form.draft['count'];
  const count = typeof kept === 'number' && kept >= 1 ? kept : 1;
  const change = (next: PatternDraft): void => {
    setTyped(next);
    const written = textOf(next);
    form.set('pattern', written);
    const own = countIn(written);
    if (own !== null) form.set('count', own);
  };
  const set = (fields: Partial<PatternDraft>): void => change({ ...draft, ...fields });
  const plan = planOf(text, count);
  const mirrored = form.draft['mirrored'] === true;
  const order = form.lines('order', 'Order of tightening').value ?? [];
  const isFree = draft.kind === 'points';
  return (
    <div className="bw-pattern-beside">
      <div className="bw-pattern-typed">
        <ChoiceField
          id={id}
          label={label}
          value={draft.kind}
          choices={kinds}
          error={error}
          description="As seen from the side of the heads"
          onChange={(kind) => set(kind === undefined ? {} : begun(kind, draft, text, count))}
        />
        <KindFields draft={draft} id={id} count={count} set={set} />
        {isFree ? <PlaceRows points={draft.points} id={id} onChange={(points) => set({ points })} /> : null}
        <YesNoField
          {...form.yesNo('mirrored', 'Seen from behind')}
          description="The worker sees it from behind: drawn, numbered and turned the other way round"
          optional
        />
        <OrderFields form={form} text={text} count={count} points={plan?.points ?? null} />
      </div>
      {plan === null && !isFree ? (
        <p className="bw-second bw-small">
          {draft.kind === 'none'
            ? 'With its pattern it is drawn here, to scale.'
            : 'Drawn here as soon as the pattern can be read.'}
        </p>
      ) : (
        <PatternPlan
          name={name}
          pattern={plan?.pattern ?? { kind: 'points', points: [] }}
          points={plan?.points ?? []}
          order={order}
          mirrored={mirrored}
          turn={null}
          units={units}
          {...(isFree ? { deeds: deedsOf(draft.points, (points) => set({ points })) } : {})}
        />
      )}
    </div>
  );
}

/** Another kind of pattern keeps what it can: places as they lie now, the text as it is written. */
function begun(kind: PatternDraft['kind'], draft: PatternDraft, text: string, count: number): Partial<PatternDraft> {
  if (kind === 'words') return { kind, words: text };
  if (kind !== 'points' || draft.points.length > 0) return { kind };
  const points = planOf(text, count)?.points ?? [];
  return {
    kind,
    points: points.map(({ position, xMm, yMm }) => ({ position, x: placeText(xMm, ''), y: placeText(yMm, '') })),
  };
}

interface KindFieldsProps {
  draft: PatternDraft;
  id: string;
  count: number;
  set: (fields: Partial<PatternDraft>) => void;
}

function KindFields({ draft, id, count, set }: KindFieldsProps) {
  const { kind } = draft;
  const turn = (
    <ChoiceField<Turn>
      id={`${id}-turn`}
      label="Numbers run"
      value={draft.turn}
      choices={turns}
      onChange={(next) => set({ turn: next ?? 'clockwise' })}
    />
  );
  const text = (field: 'rows' | 'columns' | 'from' | 'words') => ({
    id: `${id}-${field}`,
    value: draft[field],
    onChange: (next: string) => set({ [field]: next }),
  });
  const length = (field: 'diameter' | 'across' | 'up') => ({
    id: `${id}-${field}`,
    kind: 'length' as const,
    value: draft[field],
    onChange: (next: string) => set({ [field]: next }),
  });
  if (kind === 'words')
    return (
      <TextField
        {...text('words')}
        label="In words"
        description="as “circle 120 mm”, or “1: 0 mm, 0 mm; 2: 60 mm, 0 mm”"
      />
    );
  if (kind === 'circle')
    return (
      <div className="bw-form-grid">
        <QuantityField {...length('diameter')} label="Diameter" description={`divided among ${count}`} />
        <TextField {...text('from')} label="First angle" description="From the top, as “30 deg”" optional />
        {turn}
      </div>
    );
  if (kind !== 'grid' && kind !== 'frame') return null;
  return (
    <div className="bw-form-grid">
      <TextField {...text('rows')} label="Rows" />
      <TextField {...text('columns')} label="Columns" />
      <QuantityField {...length('across')} label="Columns apart" />
      <QuantityField {...length('up')} label="Rows apart" />
      {kind === 'frame' ? turn : null}
    </div>
  );
}

interface PlaceRowsProps {
  points: readonly TypedPlace[];
  id: string;
  onChange: (points: readonly TypedPlace[]) => void;
}

/** Every place with its figures, which may lie below 0: typed, where the hand would rather not draw. */
function PlaceRows({ points, id, onChange }: PlaceRowsProps) {
  const change = (index: number, field: keyof TypedPlace, value: string): void =>
    onChange(points.map((point, at) => (at === index ? { ...point, [field]: value } : point)));
  return (
    <div className="bw-pattern-places">
      <RowsField
        what="Place"
        rows={points}
        addLabel="Add place"
        onAdd={() => onChange(withPlace(points, { xMm: 0, yMm: 0 }))}
        onRemove={(index) => onChange(points.filter((_, at) => at !== index))}
      >
        {(point, index) => (
          <>
            <TextField
              id={`${id}-${index}-position`}
              label={`Place ${index + 1}, position`}
              value={point.position}
              onChange={(text) => change(index, 'position', text)}
            />
            <TextField
              id={`${id}-${index}-x`}
              label={`Place ${index + 1}, right (with unit)`}
              value={point.x}
              onChange={(text) => change(index, 'x', text)}
            />
            <TextField
              id={`${id}-${index}-y`}
              label={`Place ${index + 1}, up (with unit)`}
              value={point.y}
              onChange={(text) => change(index, 'y', text)}
            />
          </>
        )}
      </RowsField>
    </div>
  );
}

function withPlace(points: readonly TypedPlace[], { xMm, yMm }: { xMm: number; yMm: number }): TypedPlace[] {
  const like = points[0]?.x ?? '';
  return [...points, { position: nextPosition(points), x: placeText(xMm, like), y: placeText(yMm, like) }];
}

function deedsOf(points: readonly TypedPlace[], onChange: (points: readonly TypedPlace[]) => void): PlaceDeeds {
  const changed = (position: string, to: (point: TypedPlace) => TypedPlace): void =>
    onChange(points.map((point) => (point.position.trim() === position ? to(point) : point)));
  return {
    onMove: (position, { xMm, yMm }) =>
      changed(position, (point) => ({ ...point, x: placeText(xMm, point.x), y: placeText(yMm, point.y) })),
    onShift: (position, { xMm, yMm }) =>
      changed(position, (point) => ({ ...point, x: shifted(point.x, xMm), y: shifted(point.y, yMm) })),
    onAdd: (at) => onChange(withPlace(points, at)),
    onRemove: (position) => onChange(points.filter((point) => point.position.trim() !== position)),
  };
}
