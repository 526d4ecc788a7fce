import { useState } from 'react';
import type { ReactNode } from 'react';
import { Button, TextInput } from '@mantine/core';
import { Dialog } from '../../components/Dialog/Dialog.tsx';
import { cautionLead, cautionText } from '../../engine/caution.ts';
import { placeAddress } from '../../store/place.ts';
import { useTable } from '../session/useStore.ts';
import { NewTaskForm } from '../task/NewTaskForm.tsx';
import type { DemoPlan } from './demoPlans.ts';
import { BagPicture } from './doorDrawings.tsx';
import { LightPicture, MastPicture } from './exampleDrawings.tsx';
import { KeptTasks } from './KeptTasks.tsx';
import { ShelfPicture, StackPicture } from './stockDrawings.tsx';
import { StarterShelves } from './StarterShelves.tsx';
import './first-page.css';

export interface FirstPageProps {
  /** The task at hand: its key and name; null where none is open. */
  atHand: { id: string; task: { name: string } } | null;
  demos: readonly DemoPlan[];
  onBringFileIn: () => void;
  onBringDemoIn: (demo: DemoPlan) => void;
  onSaveDemo: (demo: DemoPlan) => void;
  onOpenTask: (id: string) => void;
  person: string;
  onPerson: (person: string) => void;
  /** Where this copy keeps its data; null while the program has not answered. */
  dataFolder: string | null;
}

const pictures: Record<string, ReactNode> = { 'skua-rock-light': <LightPicture />, 'tarn-array': <MastPicture /> };

/** What there is to begin with, and what is kept to go on with. */
export function FirstPage(props: FirstPageProps) {
  const { atHand, demos, onOpenTask, dataFolder } = props;
  const tasks = useTable('tasks');
  const shelves = useTable('shelves');
  const [person, setPerson] = useState(props.person);
  const [beginning, setBeginning] = useState(false);
  const begin = (
    <Button
      variant={tasks.rows.size === 0 ? 'filled' : 'default'}
      // Codes and shelves that are taken must be known first.
      disabled={!tasks.ready || !shelves.ready}
      onClick={() => setBeginning(true)}
    >
      Begin a task…
    </Button>
  );
  return (
    <div className="bw-first">
      <h1>What do you have in front of you?</h1>
      <p className="bw-first-lead">
        Bagwright turns a task into the bag, with the reason for every line. It works on this machine alone: no network,
        nothing sent.
      </p>
      {atHand === null ? null : (
        <p className="bw-first-goon">
          <a href={placeAddress({ at: 'front' })}>Go on with {atHand.task.name}</a>
        </p>
      )}
      <KeptTasks atHand={atHand?.id ?? null} onOpenTask={onOpenTask} />
      <div className="bw-doors">
        <Door
          id="task"
          heading="A task to equip"
          says="Steps are known, or will be. Begin with an empty task."
          picture={<BagPicture />}
        >
          {begin}
        </Door>
        <Door
          id="file"
          heading="A plan file"
          says="From a colleague or a script. It is compared with what is kept, then written; drop it anywhere here."
          picture={<StackPicture />}
        >
          <Button onClick={props.onBringFileIn}>Bring a plan file in…</Button>
        </Door>
        <Door
          id="shelf"
          heading="A shelf to fill"
          says="Generic items from the standards’ tables, to begin with; what is assumed in them is marked."
          picture={<ShelfPicture />}
        >
          <StarterShelves />
        </Door>
      </div>
      <div className="bw-first-lower">
        <section aria-labelledby="examples-heading">
          <h2 id="examples-heading">Or open a worked example</h2>
          <ul className="bw-first-examples">
            {demos.map((demo) => (
              <li key={demo.id}>
                <div className="bw-door-picture">{pictures[demo.id]}</div>
                <div>
                  <button type="button" className="bw-link" onClick={() => props.onBringDemoIn(demo)}>
                    Bring in {demo.name}…
                  </button>
                  <p className="bw-second">{demo.shows} Invented.</p>
                  <button type="button" className="bw-link" onClick={() => props.onSaveDemo(demo)}>
                    Save its file…
                  </button>
                </div>
              </li>
            ))}
          </ul>
        </section>
        <section aria-labelledby="kept-heading">
          <h2 id="kept-heading">Kept here</h2>
          <p className="bw-code">{dataFolder ?? 'a folder the program has not named yet'}</p>
          <p>“Saved” means that it is on the disk twice: in the journal and in the working copy.</p>
          <TextInput
            mt={12}
            label="Your name, as it shall be signed"
            value={person}
            autoComplete="name"
            onChange={({ currentTarget: { value } }) => {
              setPerson(value);
              props.onPerson(value);
            }}
          />
        </section>
      </div>
      <section className="bw-first-caution" aria-label="Caution">
        <b>{cautionLead}</b> {cautionText} Values marked “assumed” are assumptions. A caution stays at the foot of every
        page and on every print.
      </section>
      {beginning ? (
        <Dialog bare title="Begin a task" onClose={() => setBeginning(false)} className="bw-first-begin">
          <NewTaskForm onCreated={onOpenTask} onLeave={() => setBeginning(false)} />
        </Dialog>
      ) : null}
    </div>
  );
}

interface DoorProps {
  id: string;
  heading: string;
  says: string;
  picture: ReactNode;
  children: ReactNode;
}

function Door({ id, heading, says, picture, children }: DoorProps) {
  return (
    <section className="bw-door" aria-labelledby={`door-${id}`}>
      <h2 id={`door-${id}`}>{heading}</h2>
      <p className="bw-second">{says}</p>
      <div className="bw-door-picture">{picture}</div>
      <div className="bw-door-ways">{children}</div>
    </section>
  );
}
