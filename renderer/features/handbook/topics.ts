import { allTables } from '../../engine/handbook/index.ts';
import type { AnyTable } from '../../engine/handbook/tables.ts';

/** Subjects in the order a person looks for them; a table of another one comes last under its own name. */
const order = [
  'torque tables',
  'prevailing torque',
  'preload',
  'strength',
  'head and wrench sizes',
  'wrench and socket tolerances',
  'thread series',
  'thread geometry',
  'human factors',
  'common practice',
];

const place = (topic: string): number => (order.includes(topic) ? order.indexOf(topic) : order.length);

export const topics: readonly string[] = [...new Set(allTables.map(({ topic }) => topic))].toSorted(
  (a, b) => place(a) - place(b) || a.localeCompare(b, 'en'),
);

export function topicName(topic: string): string {
  return topic === 'prevailing torque'
    ? 'Running and breakaway torque'
    : `${topic.charAt(0).toUpperCase()}${topic.slice(1)}`;
}

/** "MIL-DTL-45916C, Table I"; of tables without a document, what they are about. */
export function tableName({ source, key }: AnyTable): string {
  return source.number === 'no source'
    ? `${source.title}: ${key.replaceAll('-', ' ')}`
    : `${source.number}, ${source.table}`;
}
