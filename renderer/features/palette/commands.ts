import type { UnitsShown } from '../../engine/units/index.ts';
import type { Preferences } from '../../store/preferences.ts';
import type { Place } from '../../store/place.ts';
import type { Command } from './command.ts';

/** What the window does when a command is called. */
export interface Deeds {
  go: (place: Place) => void;
  walkStep: (by: 1 | -1) => void;
  bringFileIn: () => void;
  demos: { id: string; name: string; bringIn: () => void; save: () => void }[];
  saveTask: () => void;
  closeTask: () => void;
  undo: () => void;
  redo: () => void;
  plan: () => void;
  cancelPlanning: () => void;
  saveResult: (format: 'json' | 'csv') => void;
  saveAgain: () => void;
  prefer: (change: Partial<Preferences>) => void;
  find: () => void;
  keys: () => void;
  settings: () => void;
}

export interface Situation {
  hasTask: boolean;
  /** What is missing before a bag can be planned; null where nothing is. */
  notPlannable: string | null;
  /** What Undo and Redo would turn round; null where there is nothing. */
  undo: string | null;
  redo: string | null;
  hasResult: boolean;
  planning: boolean;
  notSaved: boolean;
}

const unitWords: [UnitsShown, string, string][] = [
  ['as-written', 'as written', 'w'],
  ['si', 'in SI', 's'],
  ['inch-pound', 'in inch-pound', 'i'],
  ['both', 'in both', 'b'],
];

const schemeWords: [Preferences['scheme'], string, string][] = [
  ['light', 'Light colours', 'l'],
  ['dark', 'Dark colours', 'd'],
  ['follow', 'Colours as the system has them', 'f'],
];

export function allCommands(deeds: Deeds, now: Situation): Command[] {
  const needsTask = now.hasTask ? null : 'open a task first';
  const needsResult = needsTask ?? (now.hasResult ? null : 'plan the bag first');
  const go = (title: string, place: Place, key: string, hindered: string | null): Command => ({
    id: `go-${place.at}`,
    kind: 'Go',
    title,
    keys: ['g', key],
    hindered,
    run: () => deeds.go(place),
  });
  const act = (id: string, title: string, run: () => void, rest: Partial<Command> = {}): Command => ({
    id,
    kind: 'Do',
    title,
    keys: null,
    hindered: null,
    run,
    ...rest,
  });
  return [
    go('First page', { at: 'first' }, 'f', null),
    go('Front sheet', { at: 'front' }, 't', needsTask),
    go('Steps', { at: 'steps' }, 's', needsTask),
    go('Outings', { at: 'outings' }, 'o', needsTask),
    go('Bag', { at: 'bag' }, 'b', needsTask),
    go('Manifest', { at: 'manifest' }, 'm', needsTask),
    go('Cards', { at: 'cards' }, 'k', needsTask),
    go('Catalog', { at: 'catalog' }, 'c', null),
    go('Sites', { at: 'sites' }, 'i', null),
    go('Handbook', { at: 'handbook' }, 'h', null),
    go('Bench', { at: 'bench' }, 'n', null),
    act('next-step', 'Next step', () => deeds.walkStep(1), { keys: ['j'], hindered: needsTask }),
    act('previous-step', 'Previous step', () => deeds.walkStep(-1), { keys: ['k'], hindered: needsTask }),
    act('undo', now.undo === null ? 'Undo' : `Undo: ${now.undo}`, deeds.undo, {
      keys: ['Ctrl Z'],
      hindered: now.undo === null ? 'nothing to undo' : null,
    }),
    act('redo', now.redo === null ? 'Redo' : `Redo: ${now.redo}`, deeds.redo, {
      keys: ['Ctrl Y'],
      hindered: now.redo === null ? 'nothing to do again' : null,
    }),
    act('bring-file-in', 'Bring a plan file in…', deeds.bringFileIn, { keys: ['o'] }),
    ...deeds.demos.flatMap(({ id, name, bringIn, save }) => [
      act(`bring-in-${id}`, `Bring in worked example: ${name}…`, bringIn),
      act(`save-${id}`, `Save worked example as a file: ${name}…`, save),
    ]),
    act('save-task', 'Save this task as a plan file…', deeds.saveTask, { keys: ['s', 't'], hindered: needsTask }),
    act('close-task', 'Close this task', deeds.closeTask, { hindered: needsTask }),
    act('plan', 'Plan the bag', deeds.plan, {
      keys: ['p'],
      hindered: needsTask ?? (now.planning ? 'it is being planned' : now.notPlannable),
    }),
    act('cancel-planning', 'Cancel planning', deeds.cancelPlanning, {
      keys: ['x'],
      hindered: now.planning ? null : 'nothing is being planned',
    }),
    act('save-json', 'Save result as JSON…', () => deeds.saveResult('json'), {
      keys: ['s', 'j'],
      hindered: needsResult,
    }),
    act('save-csv', 'Save lines as CSV…', () => deeds.saveResult('csv'), { keys: ['s', 'c'], hindered: needsResult }),
    act('save-again', 'Save again', deeds.saveAgain, { hindered: now.notSaved ? null : 'everything is saved' }),
    ...unitWords.map(([units, words, key]) =>
      act(`units-${units}`, `Show units ${words}`, () => deeds.prefer({ units }), { keys: ['u', key] }),
    ),
    ...schemeWords.map(([scheme, words, key]) =>
      act(`scheme-${scheme}`, words, () => deeds.prefer({ scheme }), { keys: ['c', key] }),
    ),
    act('find', 'Find or do…', deeds.find, { keys: ['Ctrl K'] }),
    act('keys', 'Keys', deeds.keys, { keys: ['?'] }),
    act('settings', 'Settings', deeds.settings, { keys: [','] }),
  ];
}
