import { useState } from 'react';
import { Button, Textarea, TextInput } from '@mantine/core';
import type { Finding } from '../../../shared-types/judged.ts';
import { Dialog } from '../../components/Dialog/Dialog.tsx';
import type { UnitsShown } from '../../engine/units/index.ts';
import { findingText } from './findingWords.ts';

export interface AcceptDialogProps {
  finding: Finding;
  /** "callout B" */
  of: string;
  person: string;
  units: UnitsShown;
  onAccept: (given: { reason: string; person: string }) => void;
  onClose: () => void;
}

/** Takes a finding as it is: who, and why. The judgement does not change by it. */
export function AcceptDialog({ finding, of, person: known, units, onAccept, onClose }: AcceptDialogProps) {
  const [reason, setReason] = useState('');
  const [person, setPerson] = useState(known);
  const [asked, setAsked] = useState(false);
  const lacks = (text: string, what: string): string | undefined =>
    asked && text.trim() === '' ? `${what} is missing.` : undefined;
  return (
    <Dialog title={`Accept a finding on ${of}`} onClose={onClose}>
      <form
        className="bw-accept"
        noValidate
        onSubmit={(event) => {
          event.preventDefault();
          setAsked(true);
          if (reason.trim() !== '' && person.trim() !== '') onAccept({ reason: reason.trim(), person: person.trim() });
        }}
      >
        <p>{findingText(finding.message, units)}</p>
        <p className="bw-second">
          The judgement stays {finding.severity === 'reject' ? 'Nonconforming' : 'Indeterminate'}; that you accept it
          stands beside it, with your reason and name, in the record and in the report. Where the finding comes to say
          something else, it is open again.
        </p>
        <Textarea
          className="bw-field"
          label="Reason"
          description="as the drawing note, the deviation or the waiver that allows it"
          autosize
          minRows={2}
          maxRows={8}
          maxLength={2000}
          value={reason}
          error={lacks(reason, 'Reason')}
          onChange={({ currentTarget }) => setReason(currentTarget.value)}
        />
        <TextInput
          className="bw-field"
          label="Your name"
          autoComplete="off"
          maxLength={2000}
          value={person}
          error={lacks(person, 'Your name')}
          onChange={({ currentTarget }) => setPerson(currentTarget.value)}
        />
        <div className="bw-form-foot">
          <Button type="submit" variant="filled">
            Accept {finding.rule}
          </Button>
          <Button onClick={onClose}>Leave it open</Button>
        </div>
      </form>
    </Dialog>
  );
}
