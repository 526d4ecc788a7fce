import { useState } from 'react';
import type { ReactNode } from 'react';
import { Button, TextInput } from '@mantine/core';
import { cautionLead, cautionText } from '../../engine/caution.ts';
import { placeAddress } from '../../store/place.ts';
import { BagPicture, LightPicture, MastPicture } from './doorDrawings.tsx';
import type { DemoPlan } from './demoPlans.ts';
import './first-page.css';

export interface FirstPageProps {
  /** What is at hand: its name and when it was opened; null where nothing is. */
  atHand: { name: string; opened: string } | null;
  demos: readonly DemoPlan[];
  onOpenFile: () => void;
  onOpenDemo: (demo: DemoPlan) => void;
  onSaveDemo: (demo: DemoPlan) => void;
  person: string;
  onPerson: (person: string) => void;
  /** Where this copy keeps its data; null while the program has not answered. */
  dataFolder: string | null;
}

const pictures: Record<string, ReactNode> = { 'skua-rock-light': <LightPicture />, 'tarn-array': <MastPicture /> };

export function FirstPage(props: FirstPageProps) {
  const { atHand, demos, onOpenFile, onOpenDemo, onSaveDemo, dataFolder } = props;
  const [person, setPerson] = useState(props.person);
  return (
    <div className="bw-first">
      <h1>What do you have in front of you?</h1>
      <p className="bw-first-lead">
        Bagwright turns a task’s plan into the bag, with the reason for every line. It works on this machine alone: no
        network, nothing sent.
      </p>
      {atHand === null ? null : (
        <p className="bw-first-goon">
          <a href={placeAddress({ at: 'steps' })}>Go on with {atHand.name}</a>{' '}
          <span className="bw-second">opened {atHand.opened}</span>
        </p>
      )}
      <div className="bw-doors">
        <section className="bw-door" aria-labelledby="door-file">
          <h2 id="door-file">A plan file</h2>
          <p className="bw-second">
            The catalog, outings and steps of a task as JSON. Open it, or drop it anywhere on this window.
          </p>
          <div className="bw-door-picture">
            <BagPicture />
          </div>
          <div className="bw-door-ways">
            <Button variant="filled" onClick={onOpenFile}>
              Open a plan file…
            </Button>
          </div>
        </section>
        {demos.map((demo) => (
          <section key={demo.id} className="bw-door" aria-labelledby={`door-${demo.id}`}>
            <h2 id={`door-${demo.id}`}>Worked example: {demo.name}</h2>
            <p className="bw-second">{demo.shows} Invented.</p>
            <div className="bw-door-picture">{pictures[demo.id]}</div>
            <div className="bw-door-ways">
              <Button onClick={() => onOpenDemo(demo)}>Open {demo.name}</Button>
              <button type="button" className="bw-link" onClick={() => onSaveDemo(demo)}>
                Save its file…
              </button>
            </div>
          </section>
        ))}
      </div>
      <div className="bw-first-lower">
        <section aria-labelledby="own-heading">
          <h2 id="own-heading">A plan of your own</h2>
          <p>
            Save a worked example’s file, change its catalog, outings and steps in a text editor, and open it here. What
            cannot be read is refused with its row, field and value.
          </p>
        </section>
        <section aria-labelledby="kept-heading">
          <h2 id="kept-heading">Kept here</h2>
          <p className="bw-code">{dataFolder ?? 'a folder the program has not named yet'}</p>
          <p>The plan at hand and its last result come back when the window opens again.</p>
        </section>
        <TextInput
          label="Your name, as it shall be signed"
          value={person}
          autoComplete="name"
          onChange={({ currentTarget: { value } }) => {
            setPerson(value);
            props.onPerson(value);
          }}
        />
      </div>
      <section className="bw-first-caution" aria-label="Caution">
        <b>{cautionLead}</b> {cautionText} Values marked “assumed” are assumptions. A caution stays at the foot of every
        page and on every print.
      </section>
    </div>
  );
}
