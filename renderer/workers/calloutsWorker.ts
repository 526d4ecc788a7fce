import type { CalloutLine, CalloutLook, TableJudged } from '../../shared-types/inspection.ts';
import { JudgedTable, tableRefusal } from '../engine/inspection/index.ts';
import { judgeTables } from './judgeTables.ts';

judgeTables<CalloutLine, CalloutLook, null, TableJudged>({
  open: (source) => new JudgedTable(source),
  refusal: tableRefusal,
});
