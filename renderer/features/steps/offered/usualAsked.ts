import type { Item } from '../../../../shared-types/records/item.ts';
import type { Interface } from '../../../../shared-types/records/site.ts';
import type { Task, TaskStep } from '../../../../shared-types/records/task.ts';
import type { Draft } from '../../../components/RecordForm/draft.ts';
import { RefusedError } from '../../../engine/errors.ts';
import { orderFaultWords, positionsOf } from '../../../engine/pattern/index.ts';
import { faultsOf } from '../../../engine/records/faultsOf.ts';
import type { Fault } from '../../../engine/records/faultsOf.ts';
import { readQuantity } from '../../../engine/units/index.ts';
import { sharesOfText, usualSteps } from '../../../engine/usualSteps/index.ts';
import type { Touched, UsualFigures, UsualStep, Way } from '../../../engine/usualSteps/index.ts';
import type { SiteRows } from '../../task/useTaskRows.ts';

type Band = NonNullable<TaskStep['callout']>;

/** The form of the usual steps, as it is filled in. */
export interface UsualDraft {
  outing?: string;
  role?: string;
  ways?: 'off' | 'on' | 'both';
  order?: 'thing' | 'part';
  place?: 'after' | 'end';
  /** "yes" by the interface's key. */
  interfaces?: Readonly<Record<string, string>>;
  fastener?: string;
  count?: number | string;
  takenTo?: string;
  demand?: string;
  callout?: Partial<Band>;
  calloutSource?: string;
  calloutFrom?: TaskStep['calloutFrom'];
  running?: Partial<Band>;
  runningIncluded?: boolean;
  shares?: string;
  snug?: string;
  check?: Partial<Band>;
  checkSource?: string;
  lubricant?: string;
  marker?: string;
}

export const usualDraft = (draft: Draft): UsualDraft => draft as UsualDraft;

/** Interfaces of the task's site, by code; of every site where it has none. */
export function interfacesOf({ site }: Pick<Task, 'site'>, { interfaces }: SiteRows): Interface[] {
  return [...interfaces.values()]
    .filter((one) => site === undefined || one.site === site)
    .toSorted((a, b) => a.code.localeCompare(b.code, 'en', { numeric: true }));
}

export const interfaceCalled = ({ code, name }: Interface): string =>
  name === undefined || name.trim() === '' ? code : `${name} (${code})`;

function orderOf({ order, pattern, count }: Interface): Pick<Touched, 'order' | 'orderFault'> {
  if (order === undefined || order.length === 0) return {};
  try {
    const fault = orderFaultWords(order, positionsOf({ pattern, count }));
    return fault === null ? { order } : { order, orderFault: fault };
  } catch (error) {
    if (error instanceof RefusedError) return { order, orderFault: 'cannot be held against its pattern' };
    throw error;
  }
}

/** What steps are made for, as chosen. */
export function touchedOf(
  draft: UsualDraft,
  interfaces: readonly Interface[],
  stock: readonly Item[],
): readonly Touched[] {
  const kept = (code: string | undefined) => {
    const found = stock.find((item) => item.kind === 'fastener' && item.code === code);
    return found?.kind === 'fastener' ? found : undefined;
  };
  const chosen = interfaces.filter(({ id }) => draft.interfaces?.[id] === 'yes');
  const own = draft.fastener?.trim() ?? '';
  const count = Number(draft.count ?? 1);
  return [
    ...chosen.map((one): Touched => {
      // An interface of the kind that is turned, whose fastener is not said yet, is turned all the same.
      const fastener = one.fastener ?? (one.kind === 'fastener' ? '' : undefined);
      return {
        ...{ key: one.id, called: interfaceCalled(one), interface: one.id, count: one.count },
        ...(fastener === undefined ? {} : { fastener }),
        ...(kept(one.fastener)?.captive === true ? { isCaptive: true } : {}),
        ...orderOf(one),
        ...(one.gear === undefined ? {} : { gear: one.gear }),
      };
    }),
    ...(own === ''
      ? []
      : [
          {
            ...{ key: 'fastener', called: kept(own)?.name ?? own, fastener: own, ownFastener: true },
            count: Number.isInteger(count) && count > 0 ? count : 1,
            ...(kept(own)?.captive === true ? { isCaptive: true } : {}),
          },
        ]),
  ];
}

function isReadable(text: string | undefined): text is string {
  if (text === undefined) return false;
  try {
    readQuantity(text, 'torque');
    return true;
  } catch (error) {
    if (error instanceof RefusedError) return false;
    throw error;
  }
}

/** A band of which both ends can be read; what cannot is said at its field. */
const band = (of: Partial<Band> | undefined): Band | undefined =>
  isReadable(of?.min) && isReadable(of.max) ? { min: of.min, max: of.max } : undefined;

function figuresOf(draft: UsualDraft): UsualFigures {
  const { demand, calloutSource, calloutFrom, runningIncluded, checkSource, lubricant, marker, takenTo } = draft;
  const shares = sharesOfText(draft.shares ?? '');
  const snug = sharesOfText(draft.snug ?? '');
  const snugShare = 'shares' in snug ? snug.shares[0] : undefined;
  const given: { [K in keyof UsualFigures]: UsualFigures[K] | undefined } = {
    ...{ demand, calloutSource, calloutFrom, runningIncluded, checkSource, lubricant, marker, takenTo, snugShare },
    ...{ callout: band(draft.callout), running: band(draft.running), check: band(draft.check) },
    shares: 'shares' in shares ? shares.shares : undefined,
  };
  return Object.fromEntries(Object.entries(given).filter(([, value]) => value !== undefined)) as UsualFigures;
}

const waysOf: Record<NonNullable<UsualDraft['ways']>, readonly Way[]> = {
  ...{ off: ['off'], on: ['on'], both: ['off', 'on'] },
};

/** The steps that the form as it stands offers. */
export function offeredBy(draft: UsualDraft, touched: readonly Touched[]): UsualStep[] {
  return usualSteps({
    ...{ ways: waysOf[draft.ways ?? 'both'], touched, order: draft.order ?? 'thing' },
    ...{ outing: draft.outing ?? '', role: draft.role ?? '', figures: figuresOf(draft) },
  });
}

/** What is wrong with what was asked, before any step is made of it. */
export function usualFaults(draft: UsualDraft, touched: readonly Touched[]): Fault[] {
  const faults: Fault[] = [];
  if (touched.length === 0)
    faults.push({ path: 'fastener', message: 'is missing: choose an interface, or name a fastener.' });
  if (draft.outing === undefined) faults.push({ path: 'outing', message: 'is missing' });
  if (draft.role === undefined) faults.push({ path: 'role', message: 'is missing' });
  const count = Number(draft.count ?? 1);
  if (!Number.isInteger(count) || count < 1)
    faults.push({ path: 'count', message: `"${draft.count}" is no whole number from 1 on.` });
  for (const path of ['shares', 'snug'] as const) {
    const read = sharesOfText(draft[path] ?? '');
    if ('why' in read) faults.push({ path, message: read.why });
    else if (path === 'snug' && read.shares.length > 1)
      faults.push({ path, message: `"${draft.snug}" is more than one share.` });
  }
  // The figures as a step would have them: read by the same check.
  const head = { id: 'new', rev: 0, task: 'task', position: 0, code: 'new', outing: 'o', role: 'r', action: 'tighten' };
  const { callout, running, demand, calloutSource, check, checkSource } = draft;
  const own = { callout, running, demand, calloutSource };
  const filled = Object.fromEntries(Object.entries(own).filter(([, value]) => value !== undefined));
  faults.push(...faultsOf('steps', { ...head, ...filled }));
  if (check !== undefined || checkSource !== undefined)
    for (const { path, message } of faultsOf('steps', { ...head, ...(check === undefined ? {} : { callout: check }) }))
      faults.push({ path: path.replace('callout', 'check'), message });
  const wantsCallout = callout === undefined && (draft.snug !== undefined || (draft.shares ?? '').trim() !== '');
  if (wantsCallout) faults.push({ path: 'callout.min', message: 'is missing: shares are taken of a callout.' });
  return faults;
}
