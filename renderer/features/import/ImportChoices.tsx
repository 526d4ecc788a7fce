import { NativeSelect, Radio, Stack, TextInput } from '@mantine/core';
import type { RadioProps } from '@mantine/core';
import type { Task } from '../../../shared-types/records/task.ts';
import type { Shelf } from '../../../shared-types/records/item.ts';

/** Where a file's content goes, as chosen. */
export interface Choices {
  /** Key of a kept task; null for a new one. */
  task: string | null;
  /** Key of a kept shelf; null for a new one. */
  shelf: string | null;
  shelfName: string;
  differing: 'keep' | 'take';
}

export interface ImportChoicesProps {
  choices: Choices;
  onChange: (choices: Choices) => void;
  /** The kept task of the file's code. */
  sameTask: Task | null;
  /** What a new task beside it will be called by. */
  newCode: string | null;
  shelves: readonly Shelf[];
  /** How many entries differ. */
  differing: number;
  nameError: string | null;
}

export const shelfNameField = 'import-shelf-name';

/** The questions that only a person can answer; those that do not arise are not asked. */
export function ImportChoices(props: ImportChoicesProps) {
  const { choices, onChange, sameTask, newCode, shelves, differing, nameError } = props;
  return (
    <Stack gap={14} className="bw-import-choices">
      {sameTask === null ? null : (
        <Radio.Group
          label={`Task ${sameTask.code} is kept here already. The file’s task goes`}
          value={choices.task === null ? 'new' : 'kept'}
          onChange={(value) => {
            const [first] = sameTask.shelves;
            if (value === 'new') onChange({ ...choices, task: null, shelf: null, differing: 'keep' });
            else onChange({ ...choices, task: sameTask.id, shelf: first ?? null });
          }}
        >
          <Stack gap={6}>
            <Choice value="new" label={`beside it, as a new task ${newCode ?? ''}`} />
            <Choice value="kept" label={`into it: ${sameTask.name}`} />
          </Stack>
        </Radio.Group>
      )}
      <Radio.Group
        label="Its catalog goes"
        value={choices.shelf === null ? 'new' : 'kept'}
        onChange={(value) =>
          onChange({ ...choices, shelf: value === 'new' ? null : (shelves[0]?.id ?? null), differing: 'keep' })
        }
      >
        <Stack gap={6}>
          <Choice value="new" label="on a new shelf" />
          {choices.shelf === null ? (
            <TextInput
              id={shelfNameField}
              className="bw-import-inner"
              label="Name of the shelf"
              value={choices.shelfName}
              error={nameError}
              maxLength={200}
              onChange={({ currentTarget }) => onChange({ ...choices, shelfName: currentTarget.value })}
            />
          ) : null}
          <Choice
            value="kept"
            disabled={shelves.length === 0}
            label={shelves.length === 0 ? 'onto a kept shelf: none is kept yet' : 'onto a kept shelf'}
          />
          {choices.shelf === null ? null : (
            <NativeSelect
              className="bw-import-inner"
              label="Shelf"
              data={shelves.map(({ id, name }) => ({ value: id, label: name }))}
              value={choices.shelf}
              onChange={({ currentTarget }) => onChange({ ...choices, shelf: currentTarget.value })}
            />
          )}
        </Stack>
      </Radio.Group>
      {differing === 0 ? null : (
        <Radio.Group
          label="Where both have an entry and they differ"
          value={choices.differing}
          onChange={(value) => onChange({ ...choices, differing: value === 'take' ? 'take' : 'keep' })}
        >
          <Stack gap={6}>
            <Choice value="keep" label="keep what is here" />
            <Choice value="take" label="take the file’s" />
          </Stack>
        </Radio.Group>
      )}
    </Stack>
  );
}

/** The dot stands out from its disc in both schemes. */
function Choice(props: RadioProps) {
  return <Radio color="var(--bw-act)" iconColor="var(--bw-onact)" {...props} />;
}
