import type { TaskStep } from '../../../shared-types/records/task.ts';
import { ChoiceField } from '../../components/Fields/ChoiceField.tsx';
import { TextField } from '../../components/Fields/TextField.tsx';
import { QuantityField } from '../../components/QuantityField/QuantityField.tsx';
import type { RecordFormState } from '../../components/RecordForm/useRecordForm.ts';
import { RowsField } from '../../components/RowsField/RowsField.tsx';
import { roleHindered } from './outingDraft.ts';
import { pairLinesOf, pairsWithout, roleLinesOf } from './roleLines.ts';
import type { PairLine, RoleLine } from './roleLines.ts';

export interface RoleFieldsProps {
  form: RecordFormState;
  /** Steps of this outing: while a role has any it stays. */
  onOuting: readonly TaskStep[];
}

const exchanges = [
  { value: 'any', label: 'Any two roles' },
  { value: 'pairs', label: 'Only the pairs named here' },
] as const;

/** Who goes, what each carries at most, and who may take whose steps. */
export function RoleFields({ form, onOuting }: RoleFieldsProps) {
  const roles = roleLinesOf(form.draft);
  const pairs = pairLinesOf(form.draft);
  const setRoles = (lines: readonly RoleLine[]): void => form.set('roleLines', lines);
  const setPairs = (lines: readonly PairLine[] | undefined): void => form.set('pairLines', lines);
  const change = (index: number, part: Partial<RoleLine>): void =>
    setRoles(roles.map((line, at) => (at === index ? { ...line, ...part } : line)));
  const changePair = (index: number, part: Partial<PairLine>): void =>
    setPairs((pairs ?? []).map((line, at) => (at === index ? { ...line, ...part } : line)));
  const choices = roles.flatMap(({ name }, at) =>
    name.trim() === '' ? [] : [{ value: String(at), label: name.trim() }],
  );
  const chosen = (at: number | null): string | undefined => choices.find(({ value }) => value === String(at))?.value;
  const lineOf = (value: string | undefined): number | null => (value === undefined ? null : Number(value));
  return (
    <fieldset className="bw-form-group">
      <legend>Roles</legend>
      <RowsField
        what="Role"
        rows={roles}
        addLabel="Add a role"
        onAdd={() => setRoles([...roles, { name: '' }])}
        onRemove={(index) => {
          setRoles(roles.filter((_, at) => at !== index));
          if (pairs !== null) setPairs(pairsWithout(pairs, index));
        }}
        hindered={({ was }) => roleHindered(was, onOuting)}
      >
        {({ name, was, carries }, index) => (
          <>
            <TextField
              {...form.text(`roleLines.${index}`, `Role ${index + 1}`)}
              value={name}
              {...(was !== undefined && was !== name ? { description: `Until now “${was}”` } : {})}
              onChange={(text) => change(index, { name: text })}
            />
            <QuantityField
              {...form.text(`roleLines.${index}.carries`, `Role ${index + 1}, carries at most`)}
              kind="mass"
              value={carries}
              description="In its own bags, these included"
              optional
              onChange={(text) => change(index, { carries: text })}
            />
          </>
        )}
      </RowsField>
      {roles.length < 2 && pairs === null ? null : (
        <>
          <div className="bw-form-grid bw-outing-swaps">
            <ChoiceField
              {...form.choice<'any' | 'pairs'>('pairLines', 'May take each other’s steps')}
              value={pairs === null ? 'any' : 'pairs'}
              description="Swaps of roles are proposed within this, and never done by themselves"
              choices={exchanges}
              onChange={(value) => setPairs(value === 'pairs' ? (pairs ?? []) : undefined)}
            />
          </div>
          {pairs === null ? null : (
            <RowsField
              what="Pair"
              rows={pairs}
              addLabel="Add a pair of roles"
              onAdd={() => setPairs([...pairs, { one: null, other: null }])}
              onRemove={(index) => setPairs(pairs.filter((_, at) => at !== index))}
            >
              {({ one, other }, index) => (
                <>
                  <ChoiceField
                    {...form.choice(`pairLines.${index}.one`, `Pair ${index + 1}, one role`)}
                    value={chosen(one)}
                    choices={choices}
                    onChange={(value) => changePair(index, { one: lineOf(value) })}
                  />
                  <ChoiceField
                    {...form.choice(`pairLines.${index}.other`, `Pair ${index + 1}, the other`)}
                    value={chosen(other)}
                    choices={choices}
                    onChange={(value) => changePair(index, { other: lineOf(value) })}
                  />
                </>
              )}
            </RowsField>
          )}
          {pairs?.length === 0 ? (
            <p className="bw-second bw-small">No pair: everybody keeps the steps of their role.</p>
          ) : null}
        </>
      )}
    </fieldset>
  );
}
