import type { Shelf } from '../../../shared-types/records/item.ts';
import { recordSchemas } from '../../../shared-types/records/index.ts';
import { TextField } from '../../components/Fields/TextField.tsx';
import { RecordForm } from '../../components/RecordForm/RecordForm.tsx';
import { useRecordForm } from '../../components/RecordForm/useRecordForm.ts';
import { faultsOf } from '../../engine/records/faultsOf.ts';
import { overKept } from '../../store/overKept.ts';
import { useStore } from '../session/useStore.ts';
import { shelfAct } from './acts.ts';

export interface ShelfFormProps {
  /** The kept shelf; null for a new one. */
  before: Shelf | null;
  shelves: Iterable<Shelf>;
  /** Key of a new shelf. */
  id: string;
  leaveAsked: number;
  onStay: () => void;
  onSaved: (id: string) => void;
  onLeave: () => void;
}

/** A shelf: a crew's own things, counted together. */
export function ShelfForm({ before, shelves, id, leaveAsked, onStay, onSaved, onLeave }: ShelfFormProps) {
  const store = useStore();
  const form = useRecordForm({
    initial: before ?? { id, rev: 0, name: '' },
    keepAs: before === null ? 'new-shelf' : `shelf-${before.id}`,
    isKept: (draft) => before === null && [...shelves].some((shelf) => shelf.id === draft['id']),
    faultsOf: (draft) => {
      const same = [...shelves].find(({ id: key, name }) => key !== draft['id'] && name === draft['name']);
      return [
        ...faultsOf('shelves', draft),
        ...(same === undefined ? [] : [{ path: 'name', message: `"${same.name}" is already the name of a shelf.` }]),
      ];
    },
  });
  return (
    <RecordForm
      form={form}
      heading={before === null ? 'Add shelf' : `Edit shelf “${before.name}”`}
      saveLabel={before === null ? 'Add shelf' : 'Save shelf'}
      leaveAsked={leaveAsked}
      onStay={onStay}
      save={(over) => store.commit(overKept(shelfAct(recordSchemas.shelves.parse(form.draft), before), over))}
      onSaved={() => onSaved(String(form.draft['id']))}
      onLeave={onLeave}
    >
      <p className="bw-second">
        A shelf is a named stock, as a shop, a crew’s case or a depot. Codes are unique within it; a task says which
        shelves it may draw on.
      </p>
      <div className="bw-form-grid">
        <TextField {...form.text('name', 'Name of the shelf')} />
        <div className="bw-form-wide">
          <TextField {...form.text('notes', 'Notes')} optional long />
        </div>
      </div>
    </RecordForm>
  );
}
