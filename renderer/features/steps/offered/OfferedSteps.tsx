import { useState } from 'react';
import { Button } from '@mantine/core';
import { NumberField } from '../../../components/Fields/NumberField.tsx';
import { TextField } from '../../../components/Fields/TextField.tsx';
import { QuantityField } from '../../../components/QuantityField/QuantityField.tsx';
import type { RecordFormState } from '../../../components/RecordForm/useRecordForm.ts';
import { SeekField } from '../../../components/SeekField/SeekField.tsx';
import type { UnitsShown } from '../../../engine/units/index.ts';
import { keptCalloutText } from '../stepRow.ts';
import type { StepOffers } from '../stepOffers.ts';
import { actionWords, contingencyWord } from '../stepTexts.ts';
import type { Offered } from './offeredSteps.ts';
import { Tick } from './Tick.tsx';
import './offered.css';

export interface OfferedStepsProps {
  form: RecordFormState;
  offered: readonly Offered[];
  /** Number each has in the task once it is added, by its key. */
  numberOf: (key: string) => number | undefined;
  /** The task before and after. */
  said: string;
  offers: StepOffers;
  /** Keys of those in which something is wrong: their fields are open. */
  faulty: ReadonlySet<string>;
  units: UnitsShown;
  /** Above each run of steps that belong to one thing; absent: one run. */
  headingOf?: (offered: Offered) => string;
}

/** Steps on their way into the task: each can be left out, and changed, before it is added. */
export function OfferedSteps(props: OfferedStepsProps) {
  const { form, offered, numberOf, said, headingOf } = props;
  const added = offered.filter(({ isAdded }) => isAdded).length;
  const none = form.text('added', 'Steps to add');
  const all = (to: 'yes' | 'no'): void =>
    form.set('added', Object.fromEntries(offered.map(({ key }) => [key, to] as const)));
  return (
    <fieldset className="bw-form-group" id={none.id} tabIndex={-1}>
      <legend>Steps to add</legend>
      <p className="bw-offered-said" role="status">
        {said}
      </p>
      {none.error === undefined ? null : <p className="bw-offered-fault">{none.error}</p>}
      {offered.length === 0 ? (
        <p className="bw-second">Nothing is chosen above that steps could be made for.</p>
      ) : (
        <>
          <div className="bw-offered-all">
            <span className="bw-second bw-small">
              {added} of {offered.length} are added
            </span>
            <Button size="xs" onClick={() => all('yes')}>
              Add all
            </Button>
            <Button size="xs" onClick={() => all('no')}>
              Leave all out
            </Button>
          </div>
          <ol className="bw-offered">
            {offered.map((one, index) => {
              const heading = headingOf?.(one);
              const before = offered[index - 1];
              const isNew = heading !== undefined && (before === undefined || headingOf?.(before) !== heading);
              return (
                <li key={one.key} data-left={!one.isAdded || undefined}>
                  {isNew ? <h3>{heading}</h3> : null}
                  <OfferedRow {...props} one={one} at={index + 1} number={numberOf(one.key)} />
                </li>
              );
            })}
          </ol>
        </>
      )}
    </fieldset>
  );
}

/** What the row says beside its name: the torque, the gear, the time. */
function figuresText({ step }: Offered, units: UnitsShown): string {
  const torque = keptCalloutText(step, units);
  const gear = (step.gear ?? []).map(({ id, quantity }) => (quantity === 1 ? id : `${quantity} × ${id}`));
  const words = [
    ...(step.action === 'use' ? [] : [torque === '–' ? 'no torque yet' : torque]),
    ...gear,
    ...(step.minutes === undefined ? [] : [`${step.minutes} min`]),
  ];
  return words.join(' · ');
}

function OfferedRow(x: OfferedStepsProps & { one: Offered; at: number; number: number | undefined }) {
  const { form, one, at, number, offers, faulty, units } = x;
  const { key, step, isAdded, asks, assumes } = one;
  const [asked, setOpen] = useState(false);
  const open = asked || faulty.has(key);
  const path = `edits.${key}`;
  const shows = (field: 'gear' | 'minutes' | 'demand'): boolean => open || (isAdded && asks.includes(field));
  const figures = figuresText(one, units);
  const onlyIf = step.contingency === true ? contingencyWord(step) : '';
  const isTorqued = step.action === 'loosen';
  return (
    <>
      <div className="bw-offered-row">
        <span className="bw-offered-number">{isAdded ? (number ?? '') : '–'}</span>
        <Tick checked={isAdded} onChange={(checked) => form.set(`added.${key}`, checked ? 'yes' : 'no')}>
          {onlyIf === '' ? null : <b>{onlyIf}: </b>}
          {step.name}
          <span className="bw-second bw-small bw-offered-figures">
            {figures === '' ? actionWords[step.action] : `${actionWords[step.action]} · ${figures}`}
          </span>
        </Tick>
        <Button
          size="xs"
          aria-expanded={open}
          aria-label={`Change new step ${at}: ${step.name ?? ''}`}
          onClick={() => setOpen(!open)}
        >
          {open ? 'Done' : 'Change'}
        </Button>
      </div>
      <p className="bw-second bw-small bw-offered-assumes">{assumes}</p>
      {open || (isAdded && asks.length > 0) ? (
        <div className="bw-form-grid bw-offered-fields">
          {open ? (
            <TextField {...form.text(`${path}.name`, `Name of new step ${at}`)} value={step.name ?? ''} optional />
          ) : null}
          {open && step.action === 'tighten' ? (
            <>
              <QuantityField
                {...form.text(`${path}.callout.min`, `Callout of new step ${at}, from`)}
                value={step.callout?.min}
                kind="torque"
              />
              <QuantityField
                {...form.text(`${path}.callout.max`, `Callout of new step ${at}, to`)}
                value={step.callout?.max}
                kind="torque"
              />
            </>
          ) : null}
          {isTorqued && shows('demand') ? (
            <QuantityField
              {...form.text(`${path}.demand`, `Torque to bear, new step ${at}`)}
              value={step.demand}
              kind="torque"
            />
          ) : null}
          {step.action === 'use' && shows('gear') ? (
            <SeekField
              {...form.text(`${path}.gear`, `Gear of new step ${at}`)}
              value={step.gear?.[0]?.id ?? ''}
              offers={offers.gear}
              unknown="No gear of this task’s shelves has this code"
              optional
            />
          ) : null}
          {shows('minutes') ? (
            <NumberField
              {...form.number(`${path}.minutes`, `Time of new step ${at} (min)`)}
              value={step.minutes}
              optional
            />
          ) : null}
        </div>
      ) : null}
    </>
  );
}
