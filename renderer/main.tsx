import './styles/layers.css';
import '@mantine/core/styles.layer.css';
import './styles/fonts.css';
import './styles/base.css';
import { createRoot } from 'react-dom/client';
import { App } from './App.tsx';
import { bringDraftsBack } from './components/RecordForm/keptDraft.ts';
import { createPlanning } from './features/bag/planning.ts';
import { ReasonsContext } from './features/bagReasons/useReasons.ts';
import { connectHost } from './host/index.ts';
import { createSession } from './store/session.ts';
import { createStore } from './store/createStore.ts';
import { startPlanning } from './workers/planner.ts';
import { startFindingReasons } from './workers/reasons.ts';

const now = (): Date => new Date();
const host = connectHost();
const store = createStore({ journal: host.journal, snapshots: host.snapshots, now });
const session = createSession(store);
const planning = createPlanning(session, startPlanning, now);

// What is not saved yet, or could not be, is worth a question before it is gone.
window.addEventListener('beforeunload', (event) => {
  const { kind } = store.saving();
  if (kind === 'saving' || kind === 'not-saved') event.preventDefault();
});
// No failure of a promise passes in silence.
window.addEventListener('unhandledrejection', ({ reason }) =>
  session.refuse('What was asked', {
    code: 'internal',
    message: reason instanceof Error ? `${reason.message} (${reason.name})` : String(reason),
  }),
);

const root = document.getElementById('root');
if (root !== null) {
  createRoot(root).render(
    <ReasonsContext value={startFindingReasons}>
      <App store={store} session={session} planning={planning} host={host} now={now} />
    </ReasonsContext>,
  );
}
void bringDraftsBack().then(() => store.open());
