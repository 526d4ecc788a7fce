import type { BagOuting } from '../../../shared-types/bag.ts';
import type { FrozenThing } from '../../../shared-types/records/revision.ts';
import { citationOf, numberAt, practiceTables, rowWhere } from '../handbook/index.ts';
import { sameSerial } from '../inspection/index.ts';
import type { ResolvedPlan } from '../plan/resolved.ts';
import { otherWayOf, otherWayText } from '../stack/otherWay.ts';
import { atLeast, atMost } from '../tolerance.ts';
import { quantityIn, showNumber } from '../units/index.ts';
import type { IssueCheck } from './issueCheck.ts';

/** What is known of torque tools beside the manifest. */
export interface ToolFacts {
  /** The day on which the outing is, as `2026-11-25`. */
  day: string;
  /** What the catalog says of a thing by now, by its code; absent: the catalog does not have it any more. */
  catalog: ReadonlyMap<string, { serial?: string | undefined; calibrationDue?: string | undefined }>;
  /** Tools found out of calibration, from the records of every task. */
  foundOut: readonly {
    serial: string;
    foundOut: string;
    /** Until when its calibration held by the catalog when that was said. */
    due?: string | undefined;
  }[];
}

/**
 * Whether each torque tool that leaves is in date, is the one that was frozen, and was not found out.
 *
 * A tool may be used on the day it is due. Of the day in the manifest and the one in the catalog the catalog's counts: it is the
 * later word on the same serial. A tool that was found out holds again with a later day in the catalog than it had then: it was
 * calibrated since. Where that day was not kept, that of the manifest stands for it. No words let it go.
 *
 * @param tools - torque tools of the manifest that lie in its bags
 * @param facts - the day, the catalog, what was found out
 * @returns one check for each tool, and one more for each that is another tool by now or was found out
 */
export function calibrationChecks(tools: readonly FrozenThing[], facts: ToolFacts): IssueCheck[] {
  return tools.flatMap((tool) => {
    const now = facts.catalog.get(tool.id);
    const due = now === undefined ? tool.calibrationDue : now.calibrationDue;
    const serial = tool.serial ?? now?.serial;
    const item = tool.id;
    const inDate: IssueCheck = {
      ...{ about: 'calibration', item, what: `${tool.id}: calibration${serial === undefined ? '' : ` of ${serial}`}` },
      have: due === undefined ? 'no day said' : `due on ${due}`,
      need: `in date on ${facts.day}`,
      ...(due !== undefined && due >= facts.day
        ? { state: 'holds' }
        : { state: 'blocks', mend: `correct its day in the catalog, or ${anotherTool(item)}` }),
    };
    return [inDate, ...changedSerial(tool, now?.serial), ...foundOutOf(tool, { serial, due }, facts)];
  });
}

function changedSerial({ id: item, serial }: FrozenThing, now: string | undefined): IssueCheck[] {
  if (serial === undefined || now === undefined || sameSerial(serial, now)) return [];
  return [
    {
      ...{ about: 'calibration', item, what: `${item}: which tool it is`, state: 'blocks' },
      ...{ have: `serial ${now} in the catalog`, need: `serial ${serial}, as it was frozen` },
      mend: `freeze the task anew with the tool it has by now, or ${anotherTool(item)}`,
    },
  ];
}

const anotherTool = (item: string): string => `name ${item} missing in its bag and plan without it`;

function foundOutOf(
  tool: FrozenThing,
  { serial, due }: { serial: string | undefined; due: string | undefined },
  { foundOut }: ToolFacts,
): IssueCheck[] {
  if (serial === undefined) return [];
  const said = foundOut.filter((one) => sameSerial(one.serial, serial));
  const last = said.toSorted((a, b) => (a.foundOut < b.foundOut ? -1 : 1)).at(-1);
  if (last === undefined) return [];
  const then = last.due ?? tool.calibrationDue;
  const isCalibrated = due !== undefined && due > last.foundOut && (then === undefined || due > then);
  const item = tool.id;
  return [
    {
      ...{ about: 'calibration', item, what: `${item}: serial ${serial} was found out of calibration` },
      have: `found out on ${last.foundOut}${isCalibrated ? `, calibrated since: due on ${due}` : ''}`,
      need: `calibrated since${then === undefined ? '' : `: due later than ${then}`}`,
      ...(isCalibrated
        ? { state: 'holds' }
        : {
            state: 'blocks',
            mend: `type in the catalog until when its new calibration holds, or ${anotherTool(item)}`,
          }),
    },
  ];
}

/** Least share of a torque tool's maximum that is set, with where it is from. */
export interface RangeShare {
  share: number;
  source: string;
}

/**
 * Least share of its maximum at which a torque tool is set: the plan's own, or the common one.
 *
 *   share = rangeShareMin of the plan, else 20 %
 *
 * @param plan - as it was frozen
 * @returns share of the maximum, 0 to 1, and its source in words
 * @throws nothing
 * @source table common-practice: common practice, no source
 * @validity hand torque tools
 * @example rangeShareOf(planWithoutIt).share // 0.2
 */
export function rangeShareOf(plan: ResolvedPlan): RangeShare {
  const own = plan.source.rangeShareMin;
  if (own !== undefined) return { share: own, source: 'the task’s own limit' };
  const table = practiceTables['common-practice'];
  const row = rowWhere(table, 'statement', 'use a torque tool between this share of its range maximum and 100 %');
  const { title, number } = citationOf(table);
  return { share: numberAt(table, row, 'value_low_percent') / 100, source: `${title.toLowerCase()}, ${number}` };
}

/**
 * Whether each step's setting lies in the share of its tool's range that is used, and is given at all.
 *
 *   least ≤ setting ÷ tool maximum ≤ 100 %
 *
 * @param plan - as it was frozen
 * @param answer - the frozen outing
 * @param least - least share, with its source
 * @returns one check for each step that tightens with a torque tool
 */
export function settingChecks(plan: ResolvedPlan, answer: BagOuting, least: RangeShare): IssueCheck[] {
  return answer.steps.flatMap(({ id, stack, setting }): IssueCheck[] => {
    const step = plan.steps.find((one) => one.id === id);
    const tool = plan.tools.get(stack[0] ?? '');
    if (step?.action !== 'tighten' || tool === undefined || tool.torque === null) return [];
    const named = { about: 'setting' as const, item: tool.id, steps: [id] };
    const other = otherWayOf(plan, step, stack);
    const otherWay: IssueCheck[] =
      other === null
        ? []
        : [
            {
              ...{ ...named, what: `${id}: which way ${tool.id} measures`, state: 'noted' },
              ...{
                have: otherWayText(other),
                need: 'a tool that measures the way the thread tightens; the card gives no setting',
              },
            },
          ];
    if (setting === null) return otherWay;
    const setNm = quantityIn(`${setting.value} ${setting.unit}`, 'torque', 'N·m');
    const { minNm, maxNm } = tool.torque;
    const share = setNm / maxNm;
    const holds = atLeast(share, least.share) && atMost(share, 1) && atLeast(setNm, minNm);
    return [
      {
        ...{ ...named, what: `${id}: setting of ${tool.id}` },
        ...(holds ? { state: 'holds' } : { state: 'blocks', mend: anotherTool(tool.id) }),
        have: `${showNumber(setting.value)} ${setting.unit}, ${showNumber(share * 100, 3)} % of its maximum`,
        need: `${showNumber(least.share * 100, 3)} to 100 % of its maximum`,
        source: least.source,
      },
      ...otherWay,
    ];
  });
}
