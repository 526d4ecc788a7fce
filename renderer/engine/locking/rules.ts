import type { Citation } from '../../../shared-types/handbook.ts';
import { lockingTables } from '../handbook/locking.ts';
import { citationOf } from '../handbook/rows.ts';
import { torqueTables } from '../handbook/torque.ts';

export interface RunningTorqueRule {
  /** The document that says so, where the table's rows come from several. */
  document: string;
  rule: string;
  source: Citation;
}

const runDown = torqueTables['run-down-rule-army'];
const drag = torqueTables['drag-torque-rule-faa'];
const words = lockingTables['running-torque-rules'];

/**
 * What the documents held say of running torque, each in its own row's words: they differ, and none is chosen here.
 *
 * @returns every rule, with the document and its source
 * @throws nothing
 * @source NASA TM-106943; FAA AC 43.13-1B section 7-40; TB 43-0218 and the manuals beside it; keys running-torque-rules,
 *   drag-torque-rule-faa and run-down-rule-army in data/SOURCES.md
 * @validity self-locking fasteners
 * @example runningTorqueRules()[0].rule // 'installation torque = table torque + measured locking (running) torque'
 */
export function runningTorqueRules(): RunningTorqueRule[] {
  return [
    ...words.rows.map((row) => ({
      document: /\d/.test(row.applies) ? row.applies : `${words.source.number} (${row.applies})`,
      rule: row.rule,
      source: citationOf(words),
    })),
    ...drag.rows.map((row) => ({ document: drag.source.number, rule: row.formula, source: citationOf(drag) })),
    ...runDown.rows.map((row) => ({
      document: row.document ?? runDown.source.number,
      rule: row.rule,
      source: citationOf(runDown),
    })),
  ];
}
