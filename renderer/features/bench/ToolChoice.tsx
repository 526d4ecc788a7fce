import { useId } from 'react';
import { NativeSelect } from '@mantine/core';
import type { ItemOf } from '../../../shared-types/records/item.ts';
import { useTable } from '../session/useStore.ts';
import type { Typed } from './benchSheet.ts';

/** Entries of a torque tool as the catalog has it; what the catalog does not say is left empty. */
function entriesOfTool(tool: ItemOf<'torque-tool'>): Typed {
  return {
    toolMin: tool.min,
    toolMax: tool.max,
    increment: tool.increment ?? '',
    settings: (tool.settings ?? []).join('\n'),
    accuracy: tool.accuracyOfReading === undefined ? '' : String(Number((tool.accuracyOfReading * 100).toPrecision(6))),
    ...(tool.lever === undefined ? {} : { lever: tool.lever }),
  };
}

/** Fills the tool's fields from the catalog; nothing where it holds no torque tool. */
export function ToolChoice({ onTake }: { onTake: (typed: Typed) => void }) {
  const id = useId();
  const items = useTable('items');
  const tools = [...items.rows.values()].filter(
    (item): item is ItemOf<'torque-tool'> => item.kind === 'torque-tool' && !item.retired,
  );
  if (tools.length === 0) return null;
  return (
    <NativeSelect
      id={id}
      className="bw-field"
      label="Take a tool from the catalog"
      data={[
        { value: '', label: 'as typed below' },
        ...tools.map((tool) => ({ value: tool.id, label: `${tool.code} ${tool.name ?? ''}`.trim() })),
      ]}
      value=""
      onChange={({ currentTarget }) => {
        const tool = tools.find((one) => one.id === currentTarget.value);
        if (tool !== undefined) onTake(entriesOfTool(tool));
      }}
    />
  );
}
