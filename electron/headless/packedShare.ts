import { shareJson, type AskedCallouts, type JudgedShare } from '../../renderer/engine/callout/index.ts';
import { RefusedError } from '../../renderer/engine/errors.ts';
import type { Share } from '../../renderer/engine/sheet/index.ts';
import { packedWhole } from './packed.ts';

export interface ShareAsked extends AskedCallouts {
  share: Share;
}

/** The rows' JSON of one share, packed, and what they come to. */
export interface PackedShare {
  judged: JudgedShare;
  blocks: Uint8Array[];
}

/** One share judged and packed; null where the file is refused, which the whole then says. */
export function packedShare(asked: ShareAsked): PackedShare | null {
  try {
    const { rest, blocks } = packedWhole(shareJson(asked));
    return { judged: rest, blocks };
  } catch (error) {
    if (error instanceof RefusedError) return null;
    throw error;
  }
}
