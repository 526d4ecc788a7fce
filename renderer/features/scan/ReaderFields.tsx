import { useState } from 'react';
import { TextInput } from '@mantine/core';
import { Switch } from '../../components/Switch/Switch.tsx';
import { groupedTag, usualReader } from '../../engine/tag/index.ts';
import type { ReaderSettings, TagReading } from '../../engine/tag/index.ts';
import { tagWords } from './tagWords.ts';
import { useScanner } from './useScanner.ts';

const ends = [
  { value: 'enter', label: 'Enter' },
  { value: 'tab', label: 'Tab' },
  { value: 'none', label: 'Nothing' },
] as const;

const mostBefore = 8;

/** What the reader puts around a code, and a field to try it at. */
export function ReaderFields({
  settings = usualReader,
  onSettings,
}: {
  settings: ReaderSettings | undefined;
  onSettings: (settings: ReaderSettings) => void;
}) {
  const [tried, setTried] = useState('');
  const [heard, setHeard] = useState<{ reading: TagReading; times: number } | null>(null);
  useScanner(settings, (reading) => setHeard((before) => ({ reading, times: (before?.times ?? 0) + 1 })));
  return (
    <fieldset className="bw-reader">
      <legend>A label reader that types like a keyboard</legend>
      <div className="bw-settings-line">
        <span>Key it presses after a code</span>
        <Switch
          label="Key it presses after a code"
          value={settings.after}
          choices={ends}
          onChange={(after) => onSettings({ ...settings, after })}
        />
      </div>
      <TextInput
        label="Signs it types before a code"
        description={`Mostly none; ${mostBefore} at most. Scan a label below: what comes first beside the 12 digits are these.`}
        value={settings.before}
        maxLength={mostBefore}
        autoComplete="off"
        spellCheck={false}
        onChange={({ currentTarget: { value } }) => onSettings({ ...settings, before: value })}
      />
      <TextInput
        label="Try your reader here"
        description="What you type stands in the field; what the reader types does not, and is told below."
        value={tried}
        autoComplete="off"
        spellCheck={false}
        onChange={({ currentTarget: { value } }) => setTried(value)}
      />
      <p role="status" className="bw-reader-heard">
        {heard === null ? 'Nothing scanned yet.' : `Scan ${heard.times}: ${heardText(heard.reading)}`}
      </p>
    </fieldset>
  );
}

function heardText(reading: TagReading): string {
  if ('refused' in reading) return `refused, ${reading.refused}.`;
  return `read ${groupedTag(reading.text)}, ${tagWords(reading.tag)}.`;
}
