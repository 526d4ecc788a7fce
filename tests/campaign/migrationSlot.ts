/** F2 has a campaign of its own, since it runs within a browser; its line stands among the others. */
import { notTried, type Line } from './table.ts';

const fault = { of: 'F2', fault: 'a migration broken off at each of its steps' };

export async function migrationLine(_seed: number, _share: number, _progress: (text: string) => void): Promise<Line> {
  return notTried(fault, 'it has no campaign yet');
}
