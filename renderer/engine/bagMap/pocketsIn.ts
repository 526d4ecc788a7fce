import type { MapLayout } from './mapLayout.ts';

/**
 * In which pockets the pieces of a line lie.
 *
 * @param bags - of a bag map
 * @param of - code of the bag
 * @param item - code of the thing
 * @returns pieces by pocket, in the order of the pockets; empty in a bag whose pockets have no names
 * @throws nothing
 * @source addition of pieces on the bag map
 * @validity any bag map
 * @example three of T-07 of which one lies apart in side: lid 2, side 1
 */
export function pocketsIn(
  { bags }: Pick<MapLayout, 'bags'>,
  of: string,
  item: string,
): { pocket: string; pieces: number }[] {
  const found = bags.find(({ bag }) => bag.id === of);
  return (found?.pockets ?? []).flatMap(({ name }) => {
    const pieces = (found?.blocks ?? [])
      .filter(({ block, pocket }) => block.item === item && pocket === name)
      .reduce((sum, { block }) => sum + block.quantity, 0);
    return pieces === 0 ? [] : [{ pocket: name, pieces }];
  });
}
