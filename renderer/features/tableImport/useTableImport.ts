import { useCallback, useEffect, useMemo, useRef, useState } from 'react';
import type { Refusal } from '../../../shared-types/errors.ts';
import { importTargets, keyOfRow, mappingFault } from '../../engine/tableImport/index.ts';
import type {
  Feed,
  ImportTarget,
  KeptRow,
  Mapping,
  TargetContext,
  TargetName,
} from '../../engine/tableImport/index.ts';
import {
  startTableImport,
  type RunResult,
  type TableChoice,
  type TableOrigin,
  type TableShown,
} from '../../workers/tableImport.ts';
import { rememberedMapping, rememberMapping } from './rememberedMapping.ts';

const firstChoice: TableChoice = { sheet: 0, headerRow: null, hasHeader: true };

/** Where the table at hand stands. */
export type TableState =
  | { kind: 'none' }
  | { kind: 'opening' }
  | { kind: 'refused'; refusal: Refusal; sheets: TableShown['sheets'] }
  | { kind: 'shown'; shown: TableShown };

export type RunState =
  | { kind: 'not' }
  | { kind: 'running'; done: number; count: number }
  | { kind: 'stopped' }
  | { kind: 'refused'; refusal: Refusal }
  | { kind: 'done'; result: RunResult };

export interface TableImportState {
  target: ImportTarget;
  origin: TableOrigin | null;
  choice: TableChoice;
  table: TableState;
  /** What the rows are held against, and by what a row is found in it. */
  kept: readonly KeptRow[];
  keyOf: (cells: KeptRow['cells']) => string;
  mapping: Mapping;
  isRemembered: boolean;
  /** What the mapping lacks; null where nothing. */
  fault: string | null;
  run: RunState;
  open(origin: TableOrigin, choice?: TableChoice): void;
  choose(change: Partial<TableChoice>): void;
  feed(at: number, change: Partial<Feed>): void;
  guessAnew(): void;
  tryAll(): void;
  stop(): void;
  leave(): void;
}

/** A table on its way in: opened, mapped, tried out. Nothing of it is written here. */
export function useTableImport(x: {
  target: TargetName;
  context: TargetContext;
  kept: readonly KeptRow[];
  first: TableOrigin | null;
}): TableImportState {
  const target = importTargets[x.target];
  const importing = useMemo(() => startTableImport(x.target), [x.target]);
  useEffect(() => () => importing.stop(), [importing]);
  const [origin, setOrigin] = useState<TableOrigin | null>(null);
  const [choice, setChoice] = useState(firstChoice);
  const [table, setTable] = useState<TableState>({ kind: 'none' });
  const [mapping, setMapping] = useState<Mapping>([]);
  const [isRemembered, setRemembered] = useState(false);
  const [run, setRun] = useState<RunState>({ kind: 'not' });

  const open = useCallback(
    (from: TableOrigin, how: TableChoice = firstChoice): void => {
      setOrigin(from);
      setChoice(how);
      setTable({ kind: 'opening' });
      setRun({ kind: 'not' });
      void importing.open(from, how).then((answer) => {
        // Another was opened meanwhile, or the page was left.
        if (answer === null) return;
        setTable(answer);
        if (answer.kind !== 'shown') return;
        const { names, guess } = answer.shown;
        const kept = rememberedMapping(target, names);
        setMapping(kept ?? guess.mapping);
        setRemembered(kept !== null);
      });
    },
    [importing, target],
  );

  const isOpened = useRef(false);
  useEffect(() => {
    if (x.first === null || isOpened.current) return;
    isOpened.current = true;
    open(x.first);
  }, [x.first, open]);

  const { context } = x;
  const keyOf = useCallback((cells: KeptRow['cells']) => keyOfRow(target, cells, context), [target, context]);

  return {
    ...{ kept: x.kept, keyOf, target, origin, choice, table, mapping, isRemembered, run, open },
    fault: table.kind === 'shown' ? mappingFault(mapping, target) : null,
    choose(change) {
      if (origin !== null) open(origin, { ...choice, ...change });
    },
    feed(at, change) {
      setMapping(
        mapping.map((feed, index) => {
          if (index === at) return { ...feed, ...change };
          // One column of ours has one source: it is taken from the other.
          return change.column !== undefined && change.column !== null && feed.column === change.column
            ? { column: null, unit: null }
            : feed;
        }),
      );
      setRemembered(false);
      setRun({ kind: 'not' });
    },
    guessAnew() {
      if (table.kind !== 'shown') return;
      setMapping(table.shown.guess.mapping);
      setRemembered(false);
      setRun({ kind: 'not' });
    },
    tryAll() {
      if (table.kind !== 'shown') return;
      rememberMapping(target, table.shown.names, mapping);
      setRun({ kind: 'running', done: 0, count: table.shown.rows });
      const asked = { mapping, context: x.context, kept: x.kept };
      void importing
        .run(asked, (done, count) => setRun({ kind: 'running', done, count }))
        .then((answer) => {
          if (answer === null) return;
          setRun('counts' in answer ? { kind: 'done', result: answer } : { kind: 'refused', refusal: answer });
        });
    },
    stop() {
      importing.stop();
      setRun({ kind: 'stopped' });
    },
    leave() {
      importing.stop();
      setOrigin(null);
      setTable({ kind: 'none' });
      setRun({ kind: 'not' });
    },
  };
}
