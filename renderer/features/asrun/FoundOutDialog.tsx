import { useState } from 'react';
import { Button, TextInput } from '@mantine/core';
import { Dialog } from '../../components/Dialog/Dialog.tsx';
import { ReasonAndName, wholeOf } from '../judged/ReasonAndName.tsx';
import type { Given } from '../judged/ReasonAndName.tsx';
import type { FoundOut } from './recordActs.ts';

export interface FoundOutDialogProps {
  serial: string;
  person: string;
  today: string;
  /** How many values of the tool are kept. */
  values: number;
  onFound: (found: Omit<FoundOut, 'at'>) => void;
  onClose: () => void;
}

/** A day of the calendar, as 2026-04-30. */
function isDay(text: string): boolean {
  if (!/^\d{4}-\d{2}-\d{2}$/.test(text)) return false;
  const day = new Date(`${text}T00:00:00Z`);
  return !Number.isNaN(day.getTime()) && day.toISOString().slice(0, 10) === text;
}

/** What is wrong with the days, by field. */
function dayFaults(foundOut: string, lastGood: string): { foundOut?: string; lastGood?: string } {
  const faults: { foundOut?: string; lastGood?: string } = {};
  if (!isDay(foundOut)) faults.foundOut = `Found out: “${foundOut}” is no day, as 2026-04-30.`;
  if (lastGood !== '' && !isDay(lastGood))
    faults.lastGood = `Last known to be right: “${lastGood}” is no day, as 2026-04-30.`;
  else if (lastGood !== '' && isDay(foundOut) && lastGood > foundOut)
    faults.lastGood = 'Last known to be right is after the day it was found out.';
  return faults;
}

/** A tool was found out of calibration: when, since when it may have been wrong, how that is known, and who says so. */
export function FoundOutDialog({ serial, person: known, today, values, onFound, onClose }: FoundOutDialogProps) {
  const [foundOut, setFoundOut] = useState(today);
  const [lastGood, setLastGood] = useState('');
  const [given, setGiven] = useState<Given>({ reason: '', person: known });
  const [asked, setAsked] = useState(false);
  const faults = dayFaults(foundOut.trim(), lastGood.trim());
  const send = (): void => {
    setAsked(true);
    const whole = wholeOf(given);
    if (faults.foundOut !== undefined || faults.lastGood !== undefined || whole === null) return;
    onFound({
      serial,
      foundOut: foundOut.trim(),
      ...(lastGood.trim() === '' ? {} : { lastGood: lastGood.trim() }),
      ...whole,
    });
  };
  return (
    <Dialog title={`Tool ${serial} found out of calibration`} onClose={onClose}>
      <form
        className="bw-accept"
        noValidate
        onSubmit={(event) => {
          event.preventDefault();
          send();
        }}
      >
        <p>
          Every value it gave after the last day it was known to be right is re-opened, in the lists of every task, and
          stays so until it is accepted. {values === 1 ? '1 value' : `${values} values`} of it are kept.
        </p>
        <TextInput
          className="bw-field"
          label="Found out"
          description="Day, as 2026-04-30"
          autoComplete="off"
          value={foundOut}
          error={asked ? faults.foundOut : undefined}
          onChange={({ currentTarget }) => setFoundOut(currentTarget.value)}
        />
        <TextInput
          className="bw-field"
          label="Last known to be right"
          description="Day of its last good check; empty where none is known: all it ever gave is re-opened then"
          autoComplete="off"
          value={lastGood}
          error={asked ? faults.lastGood : undefined}
          onChange={({ currentTarget }) => setLastGood(currentTarget.value)}
        />
        <ReasonAndName
          given={given}
          onGiven={setGiven}
          description="How it was found, and by how much it was off"
          asked={asked}
        />
        <div className="bw-form-foot">
          <Button type="submit" variant="filled">
            Re-open its values
          </Button>
          <Button onClick={onClose}>Leave it</Button>
        </div>
      </form>
    </Dialog>
  );
}
