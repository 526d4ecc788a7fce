import { useState } from 'react';
import type { ReactNode } from 'react';
import { TextInput } from '@mantine/core';
import { Dialog } from '../../components/Dialog/Dialog.tsx';
import { Switch } from '../../components/Switch/Switch.tsx';
import { unitChoices } from '../../components/TitleStrip/TitleStrip.tsx';
import type { Preferences } from '../../store/preferences.ts';
import { ReaderFields } from '../scan/ReaderFields.tsx';
import './settings.css';

export interface SettingsSheetProps {
  preferences: Preferences;
  onPrefer: (change: Partial<Preferences>) => void;
  /** Where this copy keeps its data; null while the program has not answered. */
  dataFolder: string | null;
  version: string | null;
  onClose: () => void;
}

const schemes = [
  { value: 'follow', label: 'As the system' },
  { value: 'light', label: 'Light' },
  { value: 'dark', label: 'Dark' },
] as const;
const papers = [
  { value: 'A4', label: 'A4' },
  { value: 'Letter', label: 'Letter' },
] as const;
const touches = [
  { value: 'bare', label: 'For bare hands' },
  { value: 'gloved', label: 'For gloves, far apart' },
] as const;
const onOff = [
  { value: 'on', label: 'On' },
  { value: 'off', label: 'Off' },
] as const;

/** What holds for this machine; every change is kept at once. */
export function SettingsSheet({ preferences, onPrefer, dataFolder, version, onClose }: SettingsSheetProps) {
  const [person, setPerson] = useState(preferences.person);
  return (
    <Dialog title="Settings" onClose={onClose}>
      <div className="bw-settings">
        <TextInput
          label="Your name, as it shall be signed"
          description="Stands in the title strip and on the manifest"
          value={person}
          onChange={({ currentTarget: { value } }) => {
            setPerson(value);
            onPrefer({ person: value });
          }}
        />
        <Line name="Units shown">
          <Switch
            label="Units shown, in settings"
            value={preferences.units}
            choices={unitChoices}
            onChange={(units) => onPrefer({ units })}
          />
        </Line>
        <Line name="Colours">
          <Switch
            label="Colours"
            value={preferences.scheme}
            choices={schemes}
            onChange={(scheme) => onPrefer({ scheme })}
          />
        </Line>
        <Line name="Paper">
          <Switch label="Paper" value={preferences.paper} choices={papers} onChange={(paper) => onPrefer({ paper })} />
        </Line>
        <Line name="Rows while packing">
          <Switch
            label="Rows while packing"
            value={preferences.gloved === true ? 'gloved' : 'bare'}
            choices={touches}
            onChange={(value) => onPrefer({ gloved: value === 'gloved' })}
          />
        </Line>
        <Line name="Sounds while packing">
          <Switch
            label="Sounds while packing"
            value={preferences.sounds === false ? 'off' : 'on'}
            choices={onOff}
            onChange={(value) => onPrefer({ sounds: value === 'on' })}
          />
        </Line>
        <Line name="Shortcuts of one letter">
          <Switch
            label="Shortcuts of one letter"
            value={preferences.singleKeys ? 'on' : 'off'}
            choices={onOff}
            onChange={(value) => onPrefer({ singleKeys: value === 'on' })}
          />
        </Line>
        <ReaderFields settings={preferences.scanner} onSettings={(scanner) => onPrefer({ scanner })} />
        <p className="bw-source">
          Kept in <span className="bw-code">{dataFolder ?? 'a folder the program has not named yet'}</span>
          {version === null ? '' : ` · Bagwright ${version}`}. Nothing leaves this machine.{' '}
          <a href="#/snapshots" onClick={onClose}>
            Snapshots, restore, and a check of the database
          </a>
          .
        </p>
      </div>
    </Dialog>
  );
}

function Line({ name, children }: { name: string; children: ReactNode }) {
  return (
    <div className="bw-settings-line">
      <span>{name}</span>
      {children}
    </div>
  );
}
