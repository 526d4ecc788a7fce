/** The items of a generated task in numbers, and as a plan's catalog has them: whole grams, whole millilitres. */
import type { OpeningForm, Plan } from '../../../shared-types/plan.ts';
import type { HeadSize, Square } from './sizes.ts';

export interface Item {
  id: string;
  grams: number;
  millilitres: number;
  sizeMm: number;
  tethers: number;
  onHand: number;
}

export interface SocketItem extends Item {
  square: Square['name'];
  form: OpeningForm;
  head: HeadSize;
  mm: number;
  innerMm: number | null;
  outsideMm: number;
  ratedNm: number;
}

export interface ExtensionItem extends Item {
  kind: 'rigid' | 'universal' | 'adapter';
  squareIn: Square['name'];
  squareOut: Square['name'];
  mm: number;
  outsideMm: number;
  ratedNm: number;
}

export interface ToolItem extends Item {
  square: Square['name'];
  maxNm: number;
  leverMm: number;
  stepDeg: number | null;
  /** Only of torque tools. */
  torque: { minNm: number; incrementNm: number; accuracy: number; loosens: boolean } | null;
}

export interface GearItem extends Item {
  consumed: boolean;
}

export interface TaskStock {
  sockets: SocketItem[];
  extensions: ExtensionItem[];
  tools: ToolItem[];
  gear: GearItem[];
}

type Carried = Pick<Plan['catalog']['carryGear'][number], 'id' | 'mass' | 'volume' | 'size' | 'tethers' | 'onHand'>;

const mm = (value: number): string => `${value} mm`;
const nm = (value: number): string => `${value} N·m`;

const carried = ({ id, grams, millilitres, sizeMm, tethers, onHand }: Item): Carried => ({
  id,
  mass: `${grams} g`,
  volume: `${millilitres} mL`,
  size: mm(sizeMm),
  ...(tethers > 0 ? { tethers } : {}),
  onHand,
});

const turning = (tool: ToolItem): { drive: string; max: string; lever: string; stepDeg?: number } => ({
  drive: `${tool.square} in`,
  max: nm(tool.maxNm),
  lever: mm(tool.leverMm),
  ...(tool.stepDeg === null ? {} : { stepDeg: tool.stepDeg }),
});

export function catalogOf(
  stock: TaskStock,
  fasteners: Plan['catalog']['fasteners'],
  bags: Plan['catalog']['bags'],
): Plan['catalog'] {
  return {
    fasteners,
    sockets: stock.sockets.map((part) => ({
      ...carried(part),
      drive: `${part.square} in`,
      opening: { form: part.form, size: part.head.text },
      length: mm(part.mm),
      ...(part.innerMm === null ? {} : { innerDepth: mm(part.innerMm) }),
      outsideDiameter: mm(part.outsideMm),
      ratedTorque: nm(part.ratedNm),
    })),
    extensions: stock.extensions.map((part) => ({
      ...carried(part),
      kind: part.kind,
      driveIn: `${part.squareIn} in`,
      driveOut: `${part.squareOut} in`,
      length: mm(part.mm),
      outsideDiameter: mm(part.outsideMm),
      ratedTorque: nm(part.ratedNm),
    })),
    drivers: stock.tools
      .filter(({ torque }) => torque === null)
      .map((tool) => ({ ...carried(tool), ...turning(tool) })),
    torqueTools: stock.tools.flatMap((tool) => {
      if (tool.torque === null) return [];
      const { minNm, incrementNm, accuracy, loosens } = tool.torque;
      return [
        {
          ...carried(tool),
          ...turning(tool),
          min: nm(minNm),
          increment: nm(incrementNm),
          accuracyOfReading: accuracy,
          ...(loosens ? { loosens } : {}),
        },
      ];
    }),
    carryGear: stock.gear.map((item) => ({ ...carried(item), ...(item.consumed ? { consumed: true } : {}) })),
    bags,
  };
}

const gramsPerMm3 = 0.00785;

/** Grams and millilitres of a steel bar of which only a share is steel. */
export function bar(outsideMm: number, lengthMm: number, share = 1): { grams: number; millilitres: number } {
  const grams = Math.max(1, Math.round((Math.PI / 4) * outsideMm ** 2 * lengthMm * gramsPerMm3 * share));
  return { grams, millilitres: Math.max(1, Math.round((outsideMm ** 2 * lengthMm) / 1000)) };
}
