import { useMemo } from 'react';
import type { Item } from '../../../shared-types/records/item.ts';
import { interfaceKinds } from '../../../shared-types/records/site.ts';
import type { Interface, Site } from '../../../shared-types/records/site.ts';
import { ChoiceField } from '../../components/Fields/ChoiceField.tsx';
import { LinesField } from '../../components/Fields/LinesField.tsx';
import { NumberField } from '../../components/Fields/NumberField.tsx';
import { TextField } from '../../components/Fields/TextField.tsx';
import type { Draft } from '../../components/RecordForm/draft.ts';
import { RecordForm } from '../../components/RecordForm/RecordForm.tsx';
import { useRecordForm } from '../../components/RecordForm/useRecordForm.ts';
import { SeekField } from '../../components/SeekField/SeekField.tsx';
import type { UnitsShown } from '../../engine/units/index.ts';
import { overKept } from '../../store/overKept.ts';
import { useStore } from '../session/useStore.ts';
import { offersOf } from '../steps/stepOffers.ts';
import { AccessFields } from '../task/AccessFields.tsx';
import { addInterface, editInterface, nextLetter } from './siteActs.ts';
import { PatternFields } from './PatternFields.tsx';
import { interfaceFaults } from './siteChecks.ts';
import { kindWords, nameOf } from './siteWords.ts';
import { WorkedByFields } from './WorkedByFields.tsx';
import './pattern.css';

export interface InterfaceFormProps {
  site: Site;
  interfaces: ReadonlyMap<string, Interface>;
  /** Items of every shelf. */
  items: readonly Item[];
  /** The interface as it is kept; null for a new one. */
  before: Interface | null;
  units: UnitsShown;
  leaveAsked: number;
  onStay: () => void;
  onSaved: (one: Interface) => void;
  onLeave: () => void;
}

const kinds = interfaceKinds.map((value) => ({ value, label: kindWords[value] }));

export function InterfaceForm(props: InterfaceFormProps) {
  const { site, interfaces, items, before, units, leaveAsked, onStay, onSaved, onLeave } = props;
  const store = useStore();
  const initial = useMemo<Draft>(
    () => {
      if (before !== null) return { ...before };
      const own = [...interfaces.values()].filter((one) => one.site === site.id);
      const code = nextLetter('A', new Set(own.map((one) => one.code)));
      return { id: store.newId(), rev: 0, site: site.id, code, kind: 'fastener', count: 1 };
    },
    // The form begins once; what changes meanwhile is found out by saving.
    // eslint-disable-next-line react-hooks/exhaustive-deps
    [],
  );
  const form = useRecordForm({
    initial,
    faultsOf: (draft) => interfaceFaults(draft, interfaces.values()),
    keepAs: before === null ? `interface-of-${site.id}` : `interface-${before.id}`,
  });
  const { fasteners, gear } = useMemo(() => offersOf(items), [items]);
  // Checked before it is sent: then it is an interface.
  const one = form.draft as unknown as Interface;
  const isWorked = one.kind !== 'fastener';
  return (
    <RecordForm
      form={form}
      heading={before === null ? `Add an interface to ${nameOf(site)}` : `Edit interface ${before.code}`}
      saveLabel={before === null ? 'Add interface' : 'Save interface'}
      save={(over) => store.commit(overKept(before === null ? addInterface(one) : editInterface(before, one), over))}
      onSaved={() => onSaved(one)}
      onLeave={onLeave}
      leaveAsked={leaveAsked}
      onStay={onStay}
    >
      <fieldset className="bw-form-group">
        <legend>The interface</legend>
        <div className="bw-form-grid">
          <TextField {...form.text('code', 'Code')} description="Its letter or number on the drawing" />
          <TextField {...form.text('name', 'Name')} description="As “flange bolt”" optional />
          <ChoiceField {...form.choice<Interface['kind']>('kind', 'Kind')} choices={kinds} />
          <NumberField {...form.number('count', 'Count')} whole />
          {isWorked && one.fastener === undefined ? null : (
            <SeekField
              {...form.text('fastener', 'Fastener')}
              description="Code, or words of it; from any shelf"
              offers={fasteners}
              unknown="No fastener of any shelf has this code"
              optional
            />
          )}
        </div>
      </fieldset>
      {isWorked ? <WorkedByFields form={form} gear={gear} /> : null}
      <fieldset className="bw-form-group">
        <legend>Pattern and order</legend>
        <PatternFields form={form} name={`interface ${one.code ?? ''}`.trim()} units={units} />
      </fieldset>
      <fieldset className="bw-form-group">
        <legend>Access to the head</legend>
        <AccessFields form={form} at="access" stretches />
      </fieldset>
      <fieldset className="bw-form-group">
        <legend>Said with it</legend>
        <div className="bw-form-grid">
          <LinesField
            {...form.lines('watchOuts', 'Watch-outs')}
            description="Said before every step that touches it"
            optional
          />
          <TextField {...form.text('notes', 'Notes')} long optional />
        </div>
      </fieldset>
    </RecordForm>
  );
}
