import { threadsBasis } from '../../engine/bag/figuresBasis.ts';
import type { ResolvedPlan } from '../../engine/plan/resolved.ts';
import { showNumber } from '../../engine/units/index.ts';
import type { ManifestNote } from './manifest.ts';

/** What every figure on the sheet rests on, said once. */
export function assumptions(plan: ResolvedPlan): string[] {
  const share = plan.rangeShareMin;
  return [
    'Lengths, diameters, rated torques, masses and stock are the catalog’s and the plan’s, as written there; nothing was weighed or measured for this sheet.',
    'A stack counts as reaching when its parts’ lengths add up to the depth, and as clearing when each part in the hole is no wider than the clear diameter.',
    'A setting conforms when the whole band it applies lies in the callout, ends included: interval rule after ISO 14253-1 on the tool’s permissible deviation, which is no expanded uncertainty.',
    'Accuracy is a share of the reading as the catalog states it. No certificate and no calibration date was looked at: look at both before use.',
    'Running torque is in the callout where the plan says so or says nothing, and is added where the plan says it is not.',
    share === 0
      ? 'The plan sets no least share of a torque tool’s range.'
      : `No setting lies below ${showNumber(share * 100)} % of its tool’s maximum: the plan’s own limit; common practice, no source.`,
    threadsBasis(),
    'Contents are judged by mass, volume, longest dimension, number and tether points; whether they lie together in the bag’s shape is not.',
  ];
}

/** The plan's own notes on where its figures come from; items with the same note share one line. */
export function notesOf(plan: ResolvedPlan, ids: ReadonlySet<string>): ManifestNote[] {
  const { catalog, steps, outings } = plan.source;
  const all = [
    ...catalog.fasteners,
    ...catalog.sockets,
    ...catalog.extensions,
    ...catalog.drivers,
    ...catalog.torqueTools,
    ...catalog.carryGear,
    ...catalog.bags,
    ...outings,
    ...steps,
  ];
  const byText = new Map<string, string[]>();
  for (const { id, notes } of all) {
    if (notes === undefined || notes.trim() === '' || !ids.has(id)) continue;
    byText.set(notes, [...(byText.get(notes) ?? []), id]);
  }
  return [...byText].map(([text, of]) => ({ text, ids: of }));
}
