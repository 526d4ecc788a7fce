import { heldHeads } from '../../engine/socket/index.ts';
import { lockingLimitsOf } from '../../engine/locking/index.ts';
import type { LockingLimits } from '../../engine/locking/index.ts';
import { torqueBands } from '../../engine/torqueTable/index.ts';
import type { TorqueBand } from '../../engine/torqueTable/index.ts';
import type { Thread } from '../../engine/thread/index.ts';

/** What some documents say otherwise than others, in one sentence. */
export interface Disagreement {
  about: string;
  words: string;
}

export interface ThreadFacts {
  bands: TorqueBand[];
  limits: LockingLimits[];
  heads: { form: string; nominal: string; document: string; key: string }[];
  disagreements: Disagreement[];
}

const same = (a: number, b: number): boolean => Math.abs(a - b) <= 1e-9 * Math.max(Math.abs(a), Math.abs(b));

/** Everything held of one thread, and where documents do not agree on it. */
export function threadFacts(thread: Thread): ThreadFacts {
  const bands = torqueBands({ thread });
  const limits = lockingLimitsOf(thread);
  const heads = heldHeads
    .filter((head) => head.system === thread.system && same(head.majorMm, thread.majorMm))
    .map(({ headForm, nominal, documents, citation }) => ({
      form: headForm,
      nominal,
      document: documents[0] ?? citation.number,
      key: citation.key,
    }));
  return {
    bands,
    limits,
    heads,
    disagreements: [...limitDifferences(limits), ...headDifferences(heads), ...bandDifferences(bands)],
  };
}

const limitKinds = [
  ['runningMax', 'greatest running torque'],
  ['breakawayMin', 'least breakaway torque'],
  ['reusedMin', 'least torque of a nut used again'],
] as const;

function limitDifferences(limits: readonly LockingLimits[]): Disagreement[] {
  return limitKinds.flatMap(([kind, about]) => {
    const said = limits.flatMap((held) =>
      held.printed
        .filter(({ limit }) => limit === kind)
        .map(({ value, unit, variant }) => ({
          nm:
            kind === 'runningMax'
              ? held.runningMaxNm
              : kind === 'breakawayMin'
                ? held.breakawayMinNm
                : held.reusedMinNm,
          words: `${held.source.number}${variant === null ? '' : `, ${variant}`}: ${value} ${unit}`,
        })),
    );
    const values = said.map(({ nm }) => nm).filter((nm) => nm !== null);
    const [first] = values;
    if (first === undefined || values.every((nm) => same(nm, first))) return [];
    return [{ about, words: said.map(({ words }) => words).join('; ') }];
  });
}

function headDifferences(heads: ThreadFacts['heads']): Disagreement[] {
  const forms = [...new Set(heads.map(({ form }) => form))];
  return forms.flatMap((form) => {
    const own = heads.filter((head) => head.form === form);
    if (new Set(own.map(({ nominal }) => nominal)).size < 2) return [];
    const words = [...new Set(own.map(({ document, nominal }) => `${document}: ${nominal}`))].join('; ');
    return [{ about: `width across flats, ${form}`, words }];
  });
}

function bandDifferences(bands: readonly TorqueBand[]): Disagreement[] {
  const documents = [...new Set(bands.map(({ source }) => source.number))];
  if (documents.length < 2) return [];
  return [
    {
      about: 'torque bands',
      words: `${documents.length} documents print bands for other nuts, surfaces and strengths: ${documents.join('; ')}. None stands for another.`,
    },
  ];
}
