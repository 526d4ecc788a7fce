/** The plan's catalog in numbers, read once for the reference. */
import type { OpeningForm, Plan } from '../../shared-types/plan.ts';
import { driveSquare, lengthMm, massKg, torqueNm, volumeL } from './quantity.ts';

export interface Carried {
  id: string;
  massKg: number;
  volumeL: number | null;
  sizeMm: number | null;
  tethers: number;
  onHand: number;
}

export interface Tool extends Carried {
  family: 'driver' | 'torqueTool';
  drive: string;
  maxNm: number;
  leverMm: number | null;
  stepDeg: number | null;
  loosens: boolean;
  /** Every torque the tool can be set to between its min and its max; a driver has none. */
  settingsNm: number[];
  accuracyOfReading: number;
}

export interface Extension extends Carried {
  universal: boolean;
  driveIn: string;
  driveOut: string;
  lengthMm: number;
  outsideDiameterMm: number;
  ratedNm: number;
}

export interface Socket extends Carried {
  drive: string;
  form: OpeningForm;
  /** Millimetres as text for every form but hexalobular, whose size is a name. */
  size: string;
  lengthMm: number;
  innerDepthMm: number | null;
  outsideDiameterMm: number;
  ratedNm: number;
}

export interface Gear extends Carried {
  consumed: boolean;
}

export interface Bag {
  id: string;
  role: string | null;
  massKg: number;
  massMaxKg: number;
  volumeMaxL: number;
  itemsMax: number;
  sizeMaxMm: number;
  tetherPoints: number;
}

export interface Stock {
  tools: Tool[];
  extensions: Extension[];
  sockets: Socket[];
  gear: Gear[];
  bags: Bag[];
  carried: Map<string, Carried>;
}

type Described = {
  id: string;
  mass: string;
  volume?: string | undefined;
  size?: string | undefined;
  tethers?: number | undefined;
  onHand: number;
};

function carried(item: Described): Carried {
  return {
    id: item.id,
    massKg: massKg(item.mass),
    volumeL: item.volume === undefined ? null : volumeL(item.volume),
    sizeMm: item.size === undefined ? null : lengthMm(item.size),
    tethers: item.tethers ?? 0,
    onHand: item.onHand,
  };
}

const optionalMm = (text: string | undefined): number | null => (text === undefined ? null : lengthMm(text));

/** The multiples of an increment in a range, both ends included with the contract's tolerance. */
function multiples(incrementNm: number, minNm: number, maxNm: number): number[] {
  const first = Math.ceil((minNm / incrementNm) * (1 - 1e-9));
  const last = Math.floor((maxNm / incrementNm) * (1 + 1e-9));
  const found: number[] = [];
  for (let k = first; k <= last; k++) found.push(k * incrementNm);
  return found;
}

function torqueTools(plan: Plan): Tool[] {
  return plan.catalog.torqueTools.map((tool) => {
    const minNm = torqueNm(tool.min);
    const maxNm = torqueNm(tool.max);
    const named = tool.settings
      ?.map(torqueNm)
      .filter((setNm) => setNm >= minNm * (1 - 1e-9) && setNm <= maxNm * (1 + 1e-9));
    return {
      ...carried(tool),
      family: 'torqueTool',
      drive: driveSquare(tool.drive),
      maxNm,
      leverMm: optionalMm(tool.lever),
      stepDeg: tool.stepDeg ?? null,
      loosens: tool.loosens ?? false,
      settingsNm: named ?? multiples(torqueNm(tool.increment ?? ''), minNm, maxNm),
      accuracyOfReading: tool.accuracyOfReading,
    };
  });
}

function drivers(plan: Plan): Tool[] {
  return plan.catalog.drivers.map((driver) => ({
    ...carried(driver),
    family: 'driver',
    drive: driveSquare(driver.drive),
    maxNm: torqueNm(driver.max),
    leverMm: optionalMm(driver.lever),
    stepDeg: driver.stepDeg ?? null,
    loosens: true,
    settingsNm: [],
    accuracyOfReading: 0,
  }));
}

export function readStock(plan: Plan): Stock {
  const tools = [...drivers(plan), ...torqueTools(plan)];
  const extensions = plan.catalog.extensions.map((part) => ({
    ...carried(part),
    universal: part.kind === 'universal',
    driveIn: driveSquare(part.driveIn),
    driveOut: driveSquare(part.driveOut),
    lengthMm: lengthMm(part.length),
    outsideDiameterMm: lengthMm(part.outsideDiameter),
    ratedNm: torqueNm(part.ratedTorque),
  }));
  const sockets = plan.catalog.sockets.map((part) => ({
    ...carried(part),
    drive: driveSquare(part.drive),
    form: part.opening.form,
    size: part.opening.form === 'hexalobular' ? part.opening.size : String(lengthMm(part.opening.size)),
    lengthMm: lengthMm(part.length),
    innerDepthMm: optionalMm(part.innerDepth),
    outsideDiameterMm: lengthMm(part.outsideDiameter),
    ratedNm: torqueNm(part.ratedTorque),
  }));
  const gear = plan.catalog.carryGear.map((item) => ({ ...carried(item), consumed: item.consumed ?? false }));
  const bags = plan.catalog.bags.map((bag) => ({
    id: bag.id,
    role: bag.role ?? null,
    massKg: bag.mass === undefined ? 0 : massKg(bag.mass),
    massMaxKg: bag.massMax === undefined ? Infinity : massKg(bag.massMax),
    volumeMaxL: bag.volumeMax === undefined ? Infinity : volumeL(bag.volumeMax),
    itemsMax: bag.itemsMax ?? Infinity,
    sizeMaxMm: bag.sizeMax === undefined ? Infinity : lengthMm(bag.sizeMax),
    tetherPoints: bag.tetherPoints ?? Infinity,
  }));
  const all = [...tools, ...extensions, ...sockets, ...gear];
  return { tools, extensions, sockets, gear, bags, carried: new Map(all.map((item) => [item.id, item])) };
}
