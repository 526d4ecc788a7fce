import type { Saving } from '../../components/TitleStrip/TitleStrip.tsx';
import { hostEnded } from '../../../shared-types/journal.ts';
import { clockText } from '../../store/clock.ts';
import type { SaveState } from '../../store/store.ts';

/** The save state in the strip's words. */
export function savingWords(state: SaveState): Saving {
  if (state.kind === 'saving') return { state: 'saving', text: 'Saving', reason: null };
  if (state.kind === 'not-saved') return { state: 'not-saved', text: 'NOT SAVED', reason: state.reason };
  if (state.kind === 'elsewhere' && state.reason === hostEnded)
    return { state: 'not-saved', text: 'NOT SAVED: program has ended', reason: null };
  if (state.kind === 'elsewhere') return { state: 'not-saved', text: 'NOT SAVED here: other window', reason: null };
  return {
    state: 'saved',
    text: state.kind === 'saved' ? `Saved ${clockText(state.at)}` : 'Nothing to save',
    reason: null,
  };
}
