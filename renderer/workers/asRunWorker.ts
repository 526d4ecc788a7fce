import type { AsRunBeside, AsRunLine, AsRunLook, AsRunTableJudged } from '../../shared-types/inspection.ts';
import { JudgedRecords, tableRefusal } from '../engine/inspection/index.ts';
import { judgeTables } from './judgeTables.ts';

judgeTables<AsRunLine, AsRunLook, AsRunBeside, AsRunTableJudged>({
  open: (source) => new JudgedRecords(source),
  refusal: tableRefusal,
});
