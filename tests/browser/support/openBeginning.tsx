/** The first page and the import dialog on a real store, for tests. */
import '../../../renderer/styles/layers.css';
import '@mantine/core/styles.layer.css';
import '../../../renderer/styles/fonts.css';
import '../../../renderer/styles/base.css';
import { MantineProvider } from '@mantine/core';
import { useState } from 'react';
import type { ReactNode } from 'react';
import { render } from 'vitest-browser-react';
import { demoPlans } from '../../../renderer/features/first-page/demoPlans.ts';
import { FirstPage } from '../../../renderer/features/first-page/FirstPage.tsx';
import { ImportDialog } from '../../../renderer/features/import/ImportDialog.tsx';
import { StoreContext } from '../../../renderer/features/session/useStore.ts';
import type { Store } from '../../../renderer/store/store.ts';
import { resolver, theme } from '../../../renderer/theme.ts';
import { memoryJournal } from '../../support/memoryJournal.ts';
import type { MemoryJournal } from '../../support/memoryJournal.ts';
import { openWindowOn } from './keptStore.ts';

interface FileAtTheDoor {
  name: string;
  text: string;
}

/** What the window was asked for. */
export interface Asked {
  opened: string[];
  saved: string[];
  /** As it was typed, letter by letter. */
  person: string[];
  filesAsked: 'asked'[];
}

function Themed({
  store,
  scheme = 'light',
  children,
}: {
  store: Store;
  scheme?: 'light' | 'dark';
  children: ReactNode;
}) {
  return (
    <MantineProvider theme={theme} cssVariablesResolver={resolver} forceColorScheme={scheme}>
      <StoreContext value={store}>{children}</StoreContext>
    </MantineProvider>
  );
}

function Beginning({ asked, folder }: { asked: Asked; folder: string | null }) {
  const [file, setFile] = useState<FileAtTheDoor | null>(null);
  const open = (id: string): void => void asked.opened.push(id);
  return (
    <>
      <FirstPage
        atHand={null}
        demos={demoPlans}
        onBringFileIn={() => asked.filesAsked.push('asked')}
        onBringDemoIn={(demo) => void demo.text().then((text) => setFile({ name: demo.fileName, text }))}
        onSaveDemo={({ id }) => asked.saved.push(id)}
        onOpenTask={open}
        person=""
        onPerson={(person) => asked.person.push(person)}
        dataFolder={folder}
      />
      {file === null ? null : <ImportDialog file={file} onOpenTask={open} onClose={() => setFile(null)} />}
    </>
  );
}

export async function openFirstPage(
  options: { journal?: MemoryJournal; folder?: string | null; scheme?: 'light' | 'dark' } = {},
) {
  const journal = options.journal ?? memoryJournal();
  const { store } = await openWindowOn(journal);
  const asked: Asked = { opened: [], saved: [], person: [], filesAsked: [] };
  const { folder = '/home/kit/Bagwright', scheme = 'light' } = options;
  const screen = await render(
    <Themed store={store} scheme={scheme}>
      <Beginning asked={asked} folder={folder} />
    </Themed>,
  );
  return { screen, store, journal, asked };
}

/** A file at the door of a window; `again` shows another one. */
export async function openImport(file: FileAtTheDoor, journal: MemoryJournal = memoryJournal()) {
  const { store, copy } = await openWindowOn(journal);
  const asked = { opened: [] as string[], closed: 0 };
  const dialog = (shown: FileAtTheDoor) => (
    <Themed store={store}>
      <ImportDialog file={shown} onOpenTask={(id) => asked.opened.push(id)} onClose={() => (asked.closed += 1)} />
    </Themed>
  );
  const screen = await render(dialog(file));
  return { screen, store, copy, journal, asked, again: (next: FileAtTheDoor) => screen.rerender(dialog(next)) };
}
