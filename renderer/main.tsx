import './styles/layers.css';
import '@mantine/core/styles.layer.css';
import './styles/fonts.css';
import './styles/base.css';
import { createRoot } from 'react-dom/client';
import { App } from './App.tsx';
import { createPlanning } from './features/bag/planning.ts';
import { connectHost } from './host/index.ts';
import { WindowDb } from './store/db.ts';
import { createSaver } from './store/saver.ts';
import { createSession } from './store/session.ts';
import { becomeWriter } from './store/writer.ts';
import { startPlanning } from './workers/planner.ts';

const now = (): Date => new Date();
const saver = createSaver(now);
const session = createSession({ db: new WindowDb(), saver, now });
const planning = createPlanning(session, startPlanning, now);
const host = connectHost();

// What is not saved yet, or could not be, is worth a question before it is gone.
window.addEventListener('beforeunload', (event) => {
  const state = saver.state();
  const unsaved =
    state.kind === 'saving' || state.kind === 'not-saved' || (state.kind === 'elsewhere' && state.heldBack);
  if (unsaved) event.preventDefault();
});
// No failure of a promise passes in silence.
window.addEventListener('unhandledrejection', ({ reason }) =>
  session.refuse('What was asked', {
    code: 'internal',
    message: reason instanceof Error ? `${reason.message} (${reason.name})` : String(reason),
  }),
);

const root = document.getElementById('root');
if (root !== null) createRoot(root).render(<App session={session} saver={saver} planning={planning} host={host} />);
void becomeWriter().then((mine) => {
  if (!mine) saver.leaveToOther();
  return session.load();
});
