import type { MapLayout } from './mapLayout.ts';

/**
 * In which pockets the pieces of a line lie.
 *
 * @param bags - of a bag map
 * @param of - code of the bag
 * @returns pieces by pocket, in the order of the pockets; empty in a bag whose pockets have no names
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
