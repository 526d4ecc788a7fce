import { itemKinds, type ItemKind } from '../../../shared-types/records/item.ts';
import { headForms, openingForms } from '../../../shared-types/plan.ts';
import type { EntryKind } from '../../components/QuantityField/QuantityField.tsx';
import { extensionWords, headWords, kitWords, openingWords, useWords } from './words.ts';

/** How a field is typed. */
export type FieldType =
  | { is: 'text' | 'long' | 'lines' | 'whole' | 'number' | 'share' | 'yes-no' | 'day' | 'strength' }
  | { is: 'quantity'; of: EntryKind; limit?: 'minimum' | 'maximum' }
  | { is: 'choice'; choices: readonly { value: string; label: string }[] };

/** One field of an item: the form, the facts, the search and the two versions of a conflict all read it from here. */
export interface ItemField {
  path: string;
  label: string;
  type: FieldType;
  optional?: boolean;
  description?: string;
}

export interface FieldGroup {
  title: string;
  fields: readonly ItemField[];
  /** Folded where nothing in it is filled in. */
  folded?: boolean;
}

const choicesOf = (words: Readonly<Record<string, string>>, order = Object.keys(words)) => ({
  is: 'choice' as const,
  choices: order.map((value) => ({ value, label: words[value] ?? value })),
});

const quantity = (of: EntryKind, limit?: 'minimum' | 'maximum'): FieldType => ({
  is: 'quantity',
  of,
  ...(limit === undefined ? {} : { limit }),
});

type Extra = Pick<ItemField, 'description'>;
const field = (path: string, label: string, type: FieldType, extra: Extra = {}): ItemField => ({
  path,
  label,
  type,
  ...extra,
});
const maybe = (path: string, label: string, type: FieldType, extra: Extra = {}): ItemField => ({
  ...field(path, label, type, extra),
  optional: true,
});

const code = field('code', 'Code', { is: 'text' }, { description: 'Unique on its shelf' });
const name = maybe('name', 'Name', { is: 'text' });
const drive = (path: string, label: string): ItemField =>
  field(path, label, quantity('drive'), { description: 'The square by its size' });
const stepAngle = maybe('stepDeg', 'Step angle of the ratchet (deg)', { is: 'number' });
const lever = maybe('lever', 'Length of the lever', quantity('length'), {
  description: 'From the square to the middle of the hand',
});

const carried: FieldGroup = {
  title: 'Carried and kept',
  fields: [
    field('mass', 'Mass', quantity('mass')),
    field('onHand', 'On hand (pieces)', { is: 'whole' }),
    field('parts', 'Parts to one piece', { is: 'whole' }, { description: 'As they are counted on return' }),
    field('kit', 'Kit', choicesOf(kitWords)),
    maybe('keptAt', 'Kept at', { is: 'text' }, { description: 'Its place in the store, as shelf 4, tray C2' }),
  ],
};
const carriedMore: readonly ItemField[] = [
  maybe('volume', 'Volume', quantity('volume')),
  maybe('size', 'Greatest extent', quantity('length'), { description: 'Decides into which bag it goes' }),
  maybe('tethers', 'Tethers it takes', { is: 'whole' }),
];
const notes = maybe('notes', 'Notes', { is: 'long' }, { description: 'Where a figure comes from; what was learned' });

const more = (...fields: ItemField[]): FieldGroup => ({
  title: 'More',
  fields: [...fields, ...carriedMore, notes],
  folded: true,
});
const kept: FieldGroup = {
  title: carried.title,
  fields: carried.fields.filter(({ path }) => path !== 'mass' && path !== 'onHand'),
};

/** Every field of every kind, grouped as the form shows it. Fields the program alone sets are not among them. */
export const itemGroups: Record<ItemKind, readonly FieldGroup[]> = {
  fastener: [
    {
      title: 'What it is',
      fields: [
        code,
        name,
        field('thread', 'Thread', { is: 'text' }, { description: 'Its designation, as M10×1.5 or 3/8-24 UNF-3A' }),
        field('head.form', 'Head', choicesOf(headWords, [...headForms])),
        field('head.acrossFlats', 'Width across flats', quantity('head-size'), {
          description: 'Nominal; a hexalobular size by its name, as T27',
        }),
        maybe('strength', 'Strength', { is: 'strength' }),
        maybe('length', 'Length under the head', quantity('length')),
      ],
    },
    kept,
    more(
      maybe('acrossFlatsLimits.min', 'Across flats, least', quantity('length', 'minimum')),
      maybe('acrossFlatsLimits.max', 'Across flats, most', quantity('length', 'maximum')),
      maybe('threadRun', 'Thread run to the seat', quantity('length'), { description: 'Gives the turns of a step' }),
      maybe('locking', 'Locking feature', { is: 'text' }),
      maybe('finish', 'Finish', { is: 'text' }),
      maybe('lubrication', 'Lubrication', { is: 'text' }),
      maybe('captive', 'Captive', { is: 'yes-no' }),
      maybe('washers', 'Washers', { is: 'text' }),
      maybe(
        'looseWashers',
        'Loose washers under one (pieces)',
        { is: 'whole' },
        {
          description: 'They come off with it and are followed by themselves',
        },
      ),
      maybe('mass', 'Mass', quantity('mass')),
      maybe('onHand', 'On hand (pieces)', { is: 'whole' }),
    ),
  ],
  socket: [
    {
      title: 'What it is',
      fields: [
        code,
        name,
        drive('drive', 'Drive'),
        field('opening.form', 'Opening', choicesOf(openingWords, [...openingForms])),
        field('opening.size', 'Size of the opening', quantity('head-size'), {
          description: 'A hexalobular size by its name, as T27',
        }),
        field('length', 'Effective length', quantity('length')),
        field('outsideDiameter', 'Outside diameter', quantity('length'), { description: 'At its widest' }),
        maybe('innerDepth', 'Inner depth', quantity('length'), { description: 'Room for a stud that stands proud' }),
        field('ratedTorque', 'Rated torque', quantity('torque', 'maximum')),
      ],
    },
    carried,
    more(),
  ],
  extension: [
    {
      title: 'What it is',
      fields: [
        code,
        name,
        field('form', 'Form', choicesOf(extensionWords)),
        drive('driveIn', 'Drive in'),
        drive('driveOut', 'Drive out'),
        field('length', 'Length', quantity('length')),
        field('outsideDiameter', 'Outside diameter', quantity('length'), { description: 'At its widest' }),
        field('ratedTorque', 'Rated torque', quantity('torque', 'maximum')),
        maybe('angleMaxDeg', 'Bends at most (deg)', { is: 'number' }, { description: 'Universal joints' }),
        maybe('offset', 'Offset', quantity('length'), { description: 'Offset heads: from axis to axis' }),
      ],
    },
    carried,
    more(),
  ],
  driver: [
    {
      title: 'What it is',
      fields: [
        code,
        name,
        drive('drive', 'Drive'),
        field('max', 'Rated torque', quantity('torque', 'maximum')),
        lever,
        stepAngle,
      ],
    },
    carried,
    more(),
  ],
  'torque-tool': [
    {
      title: 'What it is',
      fields: [
        code,
        name,
        drive('drive', 'Drive'),
        field('min', 'Range, least', quantity('torque', 'minimum')),
        field('max', 'Range, most', quantity('torque', 'maximum')),
        maybe('increment', 'Increment', quantity('torque'), { description: 'Of its scale; or its settings by name' }),
        maybe('settings', 'Settings', { is: 'lines' }),
        maybe('accuracyOfReading', 'Accuracy of the reading (share)', { is: 'share' }, { description: '0.04 is 4 %' }),
        maybe(
          'accuracyOfFullScale',
          'Accuracy of full scale (share)',
          { is: 'share' },
          {
            description: 'One of the two; a tool known by this one alone is not planned with',
          },
        ),
        maybe(
          'accuracyFrom',
          'Accuracy from',
          choicesOf({ certificate: 'its certificate', assumed: 'assumed, from the standard' }),
        ),
        maybe('serial', 'Serial number', { is: 'text' }),
        maybe('calibrationDue', 'Calibration due (year-month-day)', { is: 'day' }),
      ],
    },
    carried,
    more(
      lever,
      stepAngle,
      maybe('loosens', 'May loosen', { is: 'yes-no' }),
      maybe('direction', 'Measures to the', choicesOf({ right: 'right', left: 'left', both: 'right and left' }), {
        description: 'Right tightens right-hand threads. Loosening is not measured: “May loosen” says it',
      }),
      maybe('freeSpeedPerMin', 'Free speed (1/min)', { is: 'number' }, { description: 'Power tools' }),
    ),
  ],
  gear: [
    {
      title: 'What it is',
      fields: [
        code,
        name,
        field('use', 'Use', choicesOf(useWords)),
        maybe('consumed', 'Used up by the step', { is: 'yes-no' }),
        maybe(
          'pouchPlaces',
          'Places for loose pieces (pieces)',
          { is: 'whole' },
          {
            description: 'How many it holds closed in; more than none makes it a pouch',
          },
        ),
        maybe('ratedMass', 'Rated mass', quantity('mass', 'maximum'), {
          description: 'Tethers and restraints: what they may hold',
        }),
        maybe(
          'supplies.fastener',
          'Fastener in it',
          { is: 'text' },
          { description: 'Its code, where it is a pack of them' },
        ),
        maybe('supplies.quantity', 'Fasteners in one of it (pieces)', { is: 'whole' }),
      ],
    },
    carried,
    more(),
  ],
  bag: [
    {
      title: 'What it is',
      fields: [
        code,
        name,
        maybe('role', 'Carried by the role', { is: 'text' }),
        maybe('massMax', 'Mass limit', quantity('mass', 'maximum')),
        maybe('volumeMax', 'Volume limit', quantity('volume', 'maximum')),
        maybe('sizeMax', 'Longest piece it takes', quantity('length', 'maximum')),
        maybe('itemsMax', 'Most pieces', { is: 'whole' }),
        maybe('tetherPoints', 'Tether points', { is: 'whole' }),
        maybe('pockets', 'Pockets', { is: 'whole' }),
        maybe(
          'pocketNames',
          'Names of its pockets',
          { is: 'text' },
          { description: 'in the order in which they are filled, with semicolons: “lid; main; side”' },
        ),
        maybe('mass', 'Mass, empty', quantity('mass')),
      ],
    },
    kept,
    { title: 'More', fields: [notes], folded: true },
  ],
};

const lists = new Map(itemKinds.map((kind) => [kind, itemGroups[kind].flatMap(({ fields }) => fields)]));

export function fieldsOf(kind: ItemKind): readonly ItemField[] {
  return lists.get(kind) ?? [];
}
