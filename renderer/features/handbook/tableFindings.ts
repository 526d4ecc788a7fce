import { allTables } from '../../engine/handbook/index.ts';
import type { Place } from '../../store/place.ts';
import type { Finding } from '../palette/findings.ts';
import { tableName, topicName } from './topics.ts';

export const tableCount = allTables.length;

/** Every table of the handbook for the finder, by document, other names and subject. */
export function tableFindings(go: (place: Place) => void): Finding[] {
  return allTables.map((table) => ({
    id: `table ${table.key}`,
    kind: 'Table',
    title: `${tableName(table)}: ${table.source.title}`,
    note: [topicName(table.topic), ...table.aliases].join(', '),
    keys: null,
    hindered: false,
    run: () => go({ at: 'handbook', table: table.key }),
  }));
}
