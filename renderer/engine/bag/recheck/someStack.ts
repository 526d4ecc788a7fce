import type { ResolvedExtension } from '../../plan/resolved.ts';
import { openingGoesOnHead } from '../../socket/index.ts';
import { checkStack } from '../../stack/checkStack.ts';
import type { StackParts, StackTask } from '../../stack/stackTask.ts';
import { extensionsMax, mayTurn, stackIds } from '../../stack/stackTask.ts';
import type { StackStock } from '../../stack/ways.ts';

/**
 * Whether the stock has a stack for the task, least or not, that is accepted. Every string of parts is put together
 * whose squares meet, and held against all rules one by one: slow and plain, for second counts of few pieces.
 */
export function someStack(stock: StackStock, task: StackTask, accepts: (ids: string[]) => boolean): boolean {
  const { headForm, acrossFlats } = task.fastener;
  const sockets = [...stock.sockets.values()].filter(({ openingForm, size }) =>
    openingGoesOnHead({ headForm, acrossFlats, openingForm, size }),
  );
  const tools = [...stock.tools.values()].filter((tool) => mayTurn(task, tool));
  const passes = (parts: StackParts): boolean =>
    accepts(stackIds(parts)) && checkStack(task, parts).every((check) => check.passes);
  return sockets.some((socket) =>
    someChain([...stock.extensions.values()], socket.driveMm, [], (extensions, driveMm) =>
      tools.some((tool) => tool.driveMm === driveMm && passes({ tool, extensions, socket })),
    ),
  );
}

/** Chains from the socket outwards, the shortest first. */
function someChain(
  extensions: readonly ResolvedExtension[],
  driveMm: number,
  chain: readonly ResolvedExtension[],
  accepts: (toolToSocket: ResolvedExtension[], driveMm: number) => boolean,
): boolean {
  if (accepts(chain.toReversed(), driveMm)) return true;
  if (chain.length === extensionsMax) return false;
  return extensions.some(
    (extension) =>
      extension.driveOutMm === driveMm && someChain(extensions, extension.driveInMm, [...chain, extension], accepts),
  );
}
