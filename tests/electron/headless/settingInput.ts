import type { Answer, CommandIo } from '../../../electron/headless/command.ts';
import { refusalOf } from '../../../electron/headless/document.ts';
import { runCommand } from '../../../electron/headless/run.ts';
import type { Refusal } from '../../../shared-types/errors.ts';
import type { ToolSettingResult } from '../../../shared-types/toolSetting.ts';
import { all, type Edit } from '../../support/editJson.ts';

/** A batch's surroundings: an object stands for a file. */
export const io: CommandIo = {
  readText: async () => '',
  readBytes: async () => new Uint8Array(),
  async *readLines() {
    yield new Uint8Array();
  },
  inBatch: true,
  run: runCommand,
};

/** 20 to 30 N·m with a wrench of 10 to 50 N·m, marks every half, ± 4 % of reading. */
export function input(edit: Edit = all()): Record<string, unknown> {
  const given: Record<string, unknown> = {
    callout: { min: '20 N·m', max: '30 N·m' },
    tool: { min: 10, max: 50, increment: 0.5, unit: 'N·m', accuracyOfReading: 0.04, lever: '300 mm' },
  };
  edit(given);
  return given;
}

export async function answer(edit: Edit = all()): Promise<{ exit: number; result: ToolSettingResult }> {
  const given = (await runCommand('setting', ['--file', input(edit)], io)) as Answer;
  return { exit: given.exit, result: given.result as ToolSettingResult };
}

export async function refusal(edit: Edit): Promise<Refusal> {
  try {
    await answer(edit);
  } catch (error) {
    return refusalOf(error);
  }
  throw new Error('nothing was refused');
}
