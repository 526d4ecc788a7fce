import type { ReactNode } from 'react';
import type { Host } from '../../../shared-types/host.ts';
import type { CalloutList, KeptCallout } from '../../../shared-types/records/judgedLists.ts';
import { Dialog } from '../../components/Dialog/Dialog.tsx';
import { importTargets } from '../../engine/tableImport/index.ts';
import type { TargetContext, TargetName } from '../../engine/tableImport/index.ts';
import type { Act } from '../../store/store.ts';
import { isoWithOffset } from '../manifest/isoWithOffset.ts';
import { useStore } from '../session/useStore.ts';
import { TableImport } from '../tableImport/TableImport.tsx';
import type { BroughtIn } from './listActs.ts';
import { freshListName } from './listRows.ts';

export interface BringTableInProps<L extends CalloutList> {
  target: TargetName;
  context?: TargetContext;
  /** The list that rows come into; null for one of their own. */
  list: L | null;
  lists: readonly L[];
  kept: readonly KeptCallout[];
  /** A list of its own for a table. */
  newList: (made: { name: string; columns: string[]; from: NonNullable<CalloutList['from']> }) => L;
  host: Host;
  bringIn: (brought: BroughtIn<L>) => Promise<Act>;
  /** The list that holds the rows now. */
  onBrought: (list: string) => void;
  onClose: () => void;
  /** Asked above the table. */
  children?: ReactNode;
}

/** A spreadsheet's table on its way into a list: mapped, tried out whole, then kept in one act. */
export function BringTableIn<L extends CalloutList>(props: BringTableInProps<L>) {
  const { target, context, list, lists, kept, newList, host, bringIn, onBrought, onClose, children } = props;
  const store = useStore();
  const { words, key } = importTargets[target];
  return (
    <Dialog
      title={list === null ? `Bring in ${words.many}` : `Bring ${words.many} into “${list.name}”`}
      onClose={onClose}
      className="bw-import"
    >
      {children}
      <TableImport
        target={target}
        context={context}
        kept={kept}
        host={host}
        onWrite={async ({ rows, columns, from }, watched) => {
          const at = isoWithOffset(new Date());
          const own = { file: from.file.slice(0, 400), ...(from.sheet === undefined ? {} : { sheet: from.sheet }), at };
          const name = freshListName(from.file, lists, words.many);
          const on = list ?? newList({ name, columns, from: own });
          const brought = rows.map(({ cells }) => cells);
          const isNewList = list === null;
          const rowsIn = { list: on, isNewList, kept, brought, fed: columns, keyColumns: key, newId: store.newId };
          await store.commit(await bringIn(rowsIn), watched);
          onBrought(on.id);
        }}
        onClose={onClose}
      />
    </Dialog>
  );
}
