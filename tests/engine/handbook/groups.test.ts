import { describe, expect, it } from 'vitest';
import * as handbook from '../../../renderer/engine/handbook/index.ts';

const groups = {
  thread: handbook.threadTables,
  strength: handbook.strengthTables,
  head: handbook.headTables,
  opening: handbook.openingTables,
  tool: handbook.toolTables,
  torque: handbook.torqueTables,
  locking: handbook.lockingTables,
  preload: handbook.preloadTables,
  practice: handbook.practiceTables,
};

describe('the groups of tables', () => {
  it('hold every table once, each under its own key', () => {
    const entries = Object.values(groups).flatMap((group) => Object.entries(group));
    for (const [key, table] of entries) expect(table.key).toBe(key);
    expect(entries.map(([key]) => key).toSorted()).toEqual(handbook.allTables.map(({ key }) => key).toSorted());
  });
});
