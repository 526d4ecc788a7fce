import { cellsOfStep, stepColumns, stepOfCells } from '../stepTable/index.ts';
import type { ImportColumn, ImportTarget } from './importTarget.ts';

const quantities = new Set<string>();

const imported = stepColumns.map(({ name, meaning, aliases, type }): ImportColumn => {
  if ('write' in type) return { name, meaning, kind: 'text', aliases };
  if (type.is === 'quantity') {
    quantities.add(name);
    return { name, meaning, kind: 'quantity', unitKind: type.of, aliases };
  }
  return { name, meaning, kind: type.is === 'choice' || type.is === 'yes-no' ? 'word' : 'text', aliases };
});

/**
 * Steps of a task, found by their code. A column that the file does not have leaves what is kept; an empty cell of one that
 * it has empties the field.
 */
export const stepTarget: ImportTarget = {
  name: 'steps',
  words: { one: 'step', many: 'steps' },
  columns: imported,
  needed: [['code']],
  key: ['code'],
  keepsOthers: false,
  begin({ steps: names = { outings: [], interfaces: [] } }) {
    return (row, { kept, fed }) => {
      const cells: Record<string, string> = { ...kept };
      for (const name of fed) {
        cells[name] = (quantities.has(name) ? row.quantityText(name) : row.text(name)) ?? '';
      }
      if ((cells['code'] ?? '') === '') row.missing('code');
      const { step, faults } = stepOfCells(cells, { id: 'row', rev: 0, task: 'row', position: 0 }, names);
      for (const { column, message } of faults)
        row.refuse(column, message.startsWith('is missing') ? 'missing-field' : 'wrong-shape', message, cells[column]);
      return step === null ? undefined : cellsOfStep(step, names);
    };
  },
};
