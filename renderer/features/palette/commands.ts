import type { UnitsShown } from '../../engine/units/index.ts';
import type { Preferences } from '../../store/preferences.ts';
import type { Place } from '../../store/place.ts';
import type { Command } from './command.ts';

/** What the window does when a command is called. */
export interface Deeds {
  go: (place: Place) => void;
  walkStep: (by: 1 | -1) => void;
  openFile: () => void;
  demos: { id: string; name: string; open: () => void; save: () => void }[];
  closePlan: () => void;
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
  hasPlan: boolean;
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
  const needsPlan = now.hasPlan ? null : 'open a plan first';
  const needsResult = needsPlan ?? (now.hasResult ? null : 'plan the bag first');
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
    go('Steps', { at: 'steps' }, 's', needsPlan),
    go('Bag', { at: 'bag' }, 'b', needsPlan),
    go('Manifest', { at: 'manifest' }, 'm', needsPlan),
    act('next-step', 'Next step', () => deeds.walkStep(1), { keys: ['j'], hindered: needsPlan }),
    act('previous-step', 'Previous step', () => deeds.walkStep(-1), { keys: ['k'], hindered: needsPlan }),
    act('open-file', 'Open a plan file…', deeds.openFile, { keys: ['o'] }),
    ...deeds.demos.flatMap(({ id, name, open, save }) => [
      act(`open-${id}`, `Open worked example: ${name}`, open),
      act(`save-${id}`, `Save worked example as a file: ${name}…`, save),
    ]),
    act('close-plan', 'Close this plan', deeds.closePlan, { hindered: needsPlan }),
    act('plan', 'Plan the bag', deeds.plan, {
      keys: ['p'],
      hindered: needsPlan ?? (now.planning ? 'it is being planned' : null),
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
