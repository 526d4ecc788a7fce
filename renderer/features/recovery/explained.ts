/** Each hindrance in words: what was found, what should be there, and the ways on, the safe one first. */
import type { Beside, Hindrance, Tally } from '../../store/store.ts';
import type { FurtherSnapshots } from '../../../shared-types/snapshot.ts';
import { grouped } from './grouped.ts';
import { totalRecords } from './tallies.ts';
import { whenText } from '../snapshots/snapshotWords.ts';

export type WayName =
  | 'rebuild'
  | 'keep-copy'
  | 'try-again'
  | 'load-again'
  | 'save-everything'
  | 'look-at-snapshot'
  | 'go-on-without';

export interface Way {
  name: WayName;
  label: string;
  says: string;
  /** What is asked before it is done: the numbers once more. Null: it is done at once. */
  asks: string | null;
}

export interface Explained {
  heading: string;
  /** One paragraph each. */
  says: string[];
  ways: Way[];
}

const saveEverything: Way = {
  name: 'save-everything',
  label: 'Save everything to a file…',
  says: 'Every entry of the journal and every record of the working copy that can still be read, as one text. Changes nothing here.',
  asks: null,
};

const compareAgain: Way = {
  name: 'try-again',
  label: 'Compare again',
  says: 'Reads journal and working copy once more. Changes nothing that differs.',
  asks: null,
};

const buildAgain: Way = {
  name: 'rebuild',
  label: 'Build the working copy again',
  says: 'Reads the whole journal into a new working copy, compares the two, and only then goes over to it. The present working copy stays on the disk as it is.',
  asks: null,
};

const restart =
  'A disk that is full is one cause: free some space, then compare again. If the working copy still does not answer: close every window of this program, start it again, then build the working copy again. What is saved is in the journal, which is kept apart from the working copy.';

export function explained(hindrance: Hindrance): Explained {
  switch (hindrance.kind) {
    case 'copy-differs':
      return copyDiffers(hindrance);
    case 'copy-lost':
      return {
        heading: 'The working copy went from under this window',
        says: [
          hindrance.reason,
          'Nothing is written from here until journal and working copy have been compared again. What was called saved is in the journal.',
          restart,
        ],
        ways: [compareAgain, saveEverything, buildAgain],
      };
    case 'journal-damaged':
      return journalDamaged(hindrance);
    case 'journal-missing':
      return journalMissing(hindrance);
    case 'snapshot-further':
      return snapshotFurther(hindrance);
    case 'newer-version':
      return {
        heading: 'A newer version of this program has been at work here',
        says: [
          `What is kept here is of version ${hindrance.kept}; this program knows version ${hindrance.known}. It shows nothing and writes nothing, so that nothing of the newer version is lost.`,
          'Start the newer version to go on.',
        ],
        ways: [saveEverything, compareAgain],
      };
    case 'older-copy':
      return {
        heading: 'The working copy is of an earlier version',
        says: [
          `It is of version ${hindrance.kept}, this program of version ${hindrance.known}. A new working copy is built from the journal beside it, and that was not done: ${hindrance.reason}`,
          'Nothing was changed: the journal is whole, and the working copy is as it was.',
        ],
        ways: [{ ...compareAgain, label: 'Try again', says: 'Begins to build it once more.' }, saveEverything],
      };
    case 'reload':
      return {
        heading: 'This window is older than what is kept',
        says: ['Another window has changed the working copy under this one. Nothing more is written from here.'],
        ways: [
          {
            name: 'load-again',
            label: 'Load this window again',
            says: 'Shows what is kept now.',
            asks: null,
          },
          saveEverything,
        ],
      };
    case 'no-answer':
      return noAnswer(hindrance);
    case 'no-host':
      return {
        heading: 'The program behind this window does not answer',
        says: [
          `It keeps the journal, and without the journal nothing is shown: ${hindrance.reason}`,
          'Close every window of this program and start it again.',
        ],
        ways: [{ ...compareAgain, label: 'Try again' }, saveEverything],
      };
  }
}

function rebuildWay({ seq }: Pick<Tally, 'seq'>): Way {
  return {
    name: 'rebuild',
    label: 'Build the working copy again',
    says: `Reads the journal’s ${entries(seq)} into a new working copy, compares the two table by table, and only then goes over to it. The present working copy stays on the disk as it is.`,
    asks: null,
  };
}

function keepWay(found: Tally, journal: Tally): Way {
  const records = count(totalRecords(found.counts), 'record');
  return {
    name: 'keep-copy',
    label: 'Keep what the working copy holds…',
    says: `Begins a new journal with the working copy’s ${records}. The present journal’s files are set aside in the folder, whole.`,
    asks: `The new journal begins with ${records}, as the working copy holds them; what only the present journal holds (${entries(journal.seq)}, ${count(totalRecords(journal.counts), 'record')}) is not shown any more. Its files are set aside in the folder and stay there. Undo does not reach back past this.`,
  };
}

function copyDiffers({ reason, journal, found, ...beside }: Extract<Hindrance, { kind: 'copy-differs' }>): Explained {
  const keep = found !== null && totalRecords(found.counts) > 0 ? [keepWay(found, journal)] : [];
  return {
    heading: found === null ? 'The working copy cannot be read' : 'The working copy is not what the journal says',
    says: [
      reason,
      `The journal is whole: ${entries(journal.seq)}, each verified. ${howFar(journal, found, beside.further ?? null)}`,
      ...saysBeside(beside, found),
      ...(found === null ? [restart] : []),
    ],
    // What cannot be read at all may be there again in a moment.
    ways:
      found === null
        ? [compareAgain, rebuildWay(journal), saveEverything]
        : [rebuildWay(journal), saveEverything, compareAgain, ...keep],
  };
}

/** What was called saved was in both, so that the working copy tells whether the journal still ends where it had come to. */
function howFar(journal: Tally, found: Tally | null, further: FurtherSnapshots | null): string {
  if (further !== null) return 'A snapshot goes further: entries may have been taken off its end.';
  return found !== null && found.seq > 0 && found.seq <= journal.seq
    ? 'Everything that was ever called saved is in it.'
    : 'No snapshot goes further. Had later entries been taken off its end, only the working copy would tell, and it cannot.';
}

/** A snapshot that goes no further than the working copy adds nothing to it. */
function saysBeside({ tail, further }: Beside, found: Tally | null): string[] {
  const says: string[] = [];
  if (tail != null)
    says.push(
      `The journal’s last line is not whole. What there is of it, ${grouped(tail.bytes)} bytes, was put aside beside the journal as ${tail.file}.`,
    );
  const cameTo = further == null ? 0 : Math.max(further.whole?.seq ?? 0, further.damaged?.seq ?? 0);
  if (further != null && cameTo > (found?.seq ?? 0))
    says.push(`${furtherText(further)}${further.whole === null ? '' : ' It is offered once the work is shown again.'}`);
  return says;
}

/** What goes further, the whole one before what cannot be gone by. */
function furtherText({ whole, damaged }: FurtherSnapshots): string {
  const said =
    whole === null
      ? []
      : [
          `The snapshot of ${whenText(whole.utc)} goes up to entry ${grouped(whole.seq)} and holds ${count(whole.records, 'record')}.`,
        ];
  if (damaged !== null) {
    const which = whole === null ? count(damaged.count, 'snapshot') : `${grouped(damaged.count)} more`;
    const [goes, is, it] = damaged.count === 1 ? ['goes', 'is', 'it'] : ['go', 'are', 'they'];
    said.push(
      `${which} ${goes} further${whole === null ? '' : ' still'}, by name up to entry ${grouped(damaged.seq)}, but ${is} damaged: ${it} cannot be gone by.`,
    );
  }
  return said.join(' ');
}

function snapshotFurther({ journal, further }: Extract<Hindrance, { kind: 'snapshot-further' }>): Explained {
  const { whole, damaged } = further;
  const records = count(totalRecords(journal.counts), 'record');
  const isEmpty = journal.seq === 0;
  const which = whole === null && damaged !== null && damaged.count > 1 ? 'Damaged snapshots' : 'A damaged snapshot';
  const heading =
    whole === null
      ? `${which} ${which.endsWith('s') ? 'go' : 'goes'} further than what is here`
      : isEmpty
        ? 'Nothing is here, and a snapshot is'
        : 'A snapshot goes further than what is here';
  return {
    heading,
    says: [
      isEmpty
        ? `The journal is empty, and so is the working copy. ${furtherText(further)}`
        : `Journal and working copy agree and end at entry ${grouped(journal.seq)}, with ${records}. ${furtherText(further)}`,
      'The journal may have been gone back to its whole part, or its folder moved, deleted, or replaced by an older copy: if you have it still, close this program, put it back and start again.',
      ...(damaged === null
        ? []
        : [
            'Of a damaged snapshot a copy may lie elsewhere, in a second folder or a file that was saved: if so, put it in its place.',
          ]),
    ],
    ways: [
      ...(whole === null ? [compareAgain, look] : [lookAtWhole, compareAgain]),
      saveEverything,
      goOn(further, journal),
    ],
  };
}

const lookAtWhole: Way = {
  name: 'look-at-snapshot',
  label: 'Look at what it would bring back',
  says: 'Shows what is here, and beside it what the snapshot would change. Nothing is restored before you say so there.',
  asks: null,
};

const look: Way = {
  name: 'look-at-snapshot',
  label: 'Look at the snapshots',
  says: 'Shows what is here, and the list of snapshots, with what is wrong with each. This page comes again at the next start.',
  asks: null,
};

function goOn({ whole, damaged }: FurtherSnapshots, { seq, counts }: Tally): Way {
  const all = (whole === null ? 0 : 1) + (damaged?.count ?? 0);
  const stay = `${all === 1 ? 'The snapshot stays where it is' : 'The snapshots stay where they are'}, and in the list of snapshots`;
  return {
    name: 'go-on-without',
    label: all === 1 ? 'Go on without it…' : 'Go on without them…',
    says: `Shows what is here. ${stay}.`,
    asks: `What is here is gone on with: ${entries(seq)}, ${count(totalRecords(counts), 'record')}. ${stay}${
      whole === null ? '' : `, with its ${count(whole.records, 'record')}`
    }; ${all === 1 ? 'it is' : 'they are'} not named before the work again.`,
  };
}

function journalDamaged({
  damage,
  journal,
  found,
  ...beside
}: Extract<Hindrance, { kind: 'journal-damaged' }>): Explained {
  const { intactSeq, file, line, reason } = damage;
  const says = [
    `Line ${line} of ${file}: ${reason}. ${
      intactSeq === 0
        ? 'No entry stands before it.'
        : `The ${entries(intactSeq)} before it ${intactSeq === 1 ? 'is' : 'are'} whole and verified.`
    }`,
    'Damage of this kind comes from the disk or from a program that wrote into the file, not from a crash.',
    ...saysBeside(beside, found),
  ];
  const back: Way = {
    ...rebuildWay({ seq: intactSeq }),
    label: intactSeq === 0 ? 'Begin with nothing…' : `Go back to entry ${intactSeq}…`,
    says: `${
      intactSeq === 0
        ? 'No entry of the journal is whole: goes on with an empty program, in a new working copy'
        : `Goes on from the journal’s ${entries(intactSeq)} that are whole, in a new working copy`
    }. The damaged files are set aside in the folder, whole, and the present working copy stays on the disk as it is.`,
    asks: `${
      intactSeq === 0
        ? 'Nothing that was saved is shown any more'
        : `What was done after entry ${intactSeq} is not shown any more`
    }${journal.seq > intactSeq ? `: ${count(journal.seq - intactSeq, 'later entry', 'later entries')}` : ''}. The damaged files and the present working copy stay on the disk.`,
  };
  const holdsMore = found !== null && totalRecords(found.counts) > 0 && found.seq >= intactSeq;
  if (found !== null && holdsMore) {
    const further =
      found.seq > intactSeq
        ? `The working copy had come to entry ${found.seq}, ${count(found.seq - intactSeq, 'entry', 'entries')} further than the whole part of the journal.`
        : 'The working copy had come as far as the whole part of the journal.';
    return {
      heading: 'The journal is damaged',
      says: [...says, further],
      ways: [keepWay(found, { ...journal, seq: intactSeq }), saveEverything, back, compareAgain],
    };
  }
  return { heading: 'The journal is damaged', says, ways: [back, saveEverything, compareAgain] };
}

function journalMissing({ journal, found, ...beside }: Extract<Hindrance, { kind: 'journal-missing' }>): Explained {
  const lacking = found.seq - journal.seq;
  return {
    heading: journal.seq === 0 ? 'The journal is empty, the working copy is not' : 'The journal ends too early',
    says: [
      journal.seq === 0
        ? `The working copy holds ${count(totalRecords(found.counts), 'record')}. The journal’s folder may have been moved, renamed or replaced: if so, put it back and compare again.`
        : `The working copy had come to entry ${found.seq}; the journal ends at entry ${journal.seq}, ${count(lacking, 'entry', 'entries')} before. An older copy of the folder may have been put in its place: if so, put the newer one back and compare again.`,
      ...saysBeside(beside, found),
    ],
    ways: [
      { ...keepWay(found, journal) },
      saveEverything,
      compareAgain,
      {
        ...rebuildWay(journal),
        label: `Go by the journal: ${entries(journal.seq)}…`,
        asks: `A new working copy is built from the journal’s ${entries(journal.seq)}: ${count(totalRecords(journal.counts), 'record')} in place of ${totalRecords(found.counts)}. The present working copy stays on the disk as it is.`,
      },
    ],
  };
}

function noAnswer({ call, afterS }: Extract<Hindrance, { kind: 'no-answer' }>): Explained {
  const ofJournal = call === 'the journal';
  return {
    heading: `No answer for ${afterS} s`,
    says: [
      `It was ${call} that did not answer. Nothing is shown before journal and working copy have been compared.`,
      ofJournal ? 'A long journal on a slow disk may need a second try.' : restart,
    ],
    ways: [{ ...compareAgain, label: 'Try again' }, saveEverything, ...(ofJournal ? [] : [buildAgain])],
  };
}

function entries(seq: number): string {
  return count(seq, 'entry', 'entries');
}

function count(number: number, one: string, many = `${one}s`): string {
  return `${grouped(number)} ${number === 1 ? one : many}`;
}
