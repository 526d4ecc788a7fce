import type { Tag } from '../../engine/tag/index.ts';

/** What a label says it is on, before anybody has looked up whose number it is. */
export function tagWords({ kind, tag, piece }: Tag): string {
  if (kind === 'manifest') return `manifest of revision ${tag}`;
  if (kind === 'bag') return `bag with label ${tag}`;
  return piece === 0 ? `label ${tag}, pieces counted by number` : `label ${tag}, piece ${piece}`;
}
