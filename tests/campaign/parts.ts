/** Everything that is tried, in the order of the table. */
import { clockJumps, calibrationDays } from './clocks.ts';
import { crashesWithForm } from './crashes.ts';
import { callFails, fullFromThenOn, fullOnce } from './diskFaults.ts';
import { fullWindow } from './fullDisk.ts';
import { newerVersions } from './newerVersions.ts';
import { parserFuzz } from './parserFuzz.ts';
import type { Part } from './part.ts';
import { powerLoss } from './powerLoss.ts';
import { elsewhere, profileDamages } from './profileDamages.ts';
import { pageReloads, programKills } from './programKills.ts';
import { filledDisk, takenFolder } from './smallDisk.ts';
import { corruptSnapshots, snapshotKills, snapshotThrows } from './snapshots.ts';
import { cutTail, tampering } from './tamper.ts';
import { truncatedImports } from './truncatedImports.ts';
import { countedTwice, rebuiltWhileOpen, secondProcess, upgradedWhileOpen } from './twoWindows.ts';
import { writerKills } from './writerKills.ts';

export const parts: readonly Part[] = [
  ...[programKills, pageReloads, writerKills],
  ...[snapshotThrows, snapshotKills, powerLoss],
  ...[fullOnce, fullFromThenOn, fullWindow, filledDisk],
  ...[callFails, takenFolder, profileDamages, corruptSnapshots, truncatedImports],
  ...[countedTwice, rebuiltWhileOpen, upgradedWhileOpen, secondProcess],
  ...[clockJumps, calibrationDays, newerVersions, crashesWithForm],
  ...[tampering, cutTail, elsewhere, parserFuzz],
];
