import { planFrom } from '../../renderer/engine/plan/readPlan.ts';
import type { ResolvedPlan, ResolvedStep } from '../../renderer/engine/plan/resolved.ts';

/** An invented plan with a stack for each thing a drawing has to cope with. */
const carried = { mass: '0.2 kg', volume: '0.05 L', size: '100 mm', onHand: 4 };

function socket(
  id: string,
  drive: string,
  form: string,
  size: string,
  length: string,
  outsideDiameter: string,
  innerDepth?: string,
) {
  return {
    ...carried,
    id,
    name: `Socket ${size} ${form}`,
    drive,
    opening: { form, size },
    length,
    outsideDiameter,
    ...(innerDepth === undefined ? {} : { innerDepth }),
    ratedTorque: '2000 N·m',
  };
}

function extension(id: string, kind: string, drive: [string, string], length: string, outsideDiameter: string) {
  return {
    ...carried,
    id,
    name: `${kind} ${length}`,
    kind,
    driveIn: drive[0],
    driveOut: drive[1],
    length,
    outsideDiameter,
    ratedTorque: '2000 N·m',
  };
}

function fastener(id: string, form: string, acrossFlats: string) {
  return { id, name: `Head ${id}`, thread: 'M8x1.25', head: { form, acrossFlats } };
}

type Access = Record<string, string | number>;

function step(id: string, fastenerId: string, access?: Access) {
  return {
    id,
    name: `Turn ${fastenerId}`,
    outing: 'one',
    role: 'Lead',
    action: 'loosen',
    fastener: fastenerId,
    demand: '20 N·m',
    ...(access === undefined ? {} : { access }),
  };
}

const square = (size: string): [string, string] => [size, size];

export const drawingPlan: ResolvedPlan = planFrom({
  task: { id: 'T-1', name: 'Invented task' },
  catalog: {
    fasteners: [
      fastener('B', 'hex', '9/16 in'),
      fastener('M5', 'hex', '8 mm'),
      fastener('M27', 'heavy-hex', '41 mm'),
      fastener('KEY', 'hex-socket', '6 mm'),
      fastener('LOBE', 'hexalobular', 'T30'),
      fastener('NUT', 'nut', '13 mm'),
    ],
    sockets: [
      socket('S-18D', '3/8 in', 'hex6', '9/16 in', '2.10 in', '0.80 in'),
      socket('S-18W', '3/8 in', 'hex6', '9/16 in', '2.10 in', '1.06 in'),
      socket('S-8', '1/4 in', 'hex6', '8 mm', '25 mm', '11.8 mm'),
      socket('S-41', '1 in', 'hex6', '41 mm', '90 mm', '62 mm', '40 mm'),
      socket('K-6', '3/8 in', 'hexKey', '6 mm', '60 mm', '18 mm'),
      socket('L-30', '1/4 in', 'hexalobular', 'T30', '50 mm', '12 mm'),
      socket('S-13', '3/8 in', 'hex12', '13 mm', '30 mm', '18 mm', '14 mm'),
    ],
    extensions: [
      extension('X-06', 'rigid', square('3/8 in'), '6 in', '0.55 in'),
      extension('X-03', 'rigid', square('3/8 in'), '3 in', '0.55 in'),
      extension('X-L', 'rigid', square('1/4 in'), '600 mm', '12 mm'),
      extension('X-400', 'rigid', square('1 in'), '400 mm', '45 mm'),
      extension('X-250', 'rigid', square('1 in'), '250 mm', '45 mm'),
      extension('U-38', 'universal', square('3/8 in'), '58 mm', '20 mm'),
      extension('A-12', 'adapter', ['1/2 in', '3/8 in'], '34 mm', '22 mm'),
    ],
    drivers: [
      { ...carried, id: 'R-38', name: 'Ratchet handle', drive: '3/8 in', max: '100 N·m', lever: '7.5 in', stepDeg: 12 },
      { ...carried, id: 'R-14', name: 'Small ratchet', drive: '1/4 in', max: '30 N·m', lever: '120 mm', stepDeg: 5 },
      { ...carried, id: 'B-1', name: 'Breaker bar', drive: '1 in', max: '2000 N·m', lever: '900 mm' },
      { ...carried, id: 'T-12', name: 'Handle without length', drive: '1/2 in', max: '300 N·m' },
    ],
    bags: [{ id: 'bag' }],
  },
  outings: [{ id: 'one', roles: ['Lead'], bags: ['bag'] }],
  steps: [
    step('11', 'B', { depth: '6.44 in', clearDiameter: '1.00 in', swingDeg: 60, handleRadius: '9 in' }),
    step('12', 'B', { depth: '8.85 in', clearDiameter: '1.00 in' }),
    step('13', 'B', { depth: '2.5 in', clearDiameter: '1.25 in', swingDeg: 8, handleRadius: '150 mm' }),
    step('14', 'B', { depth: '8.105 in', clearDiameter: '0.85 in' }),
    step('15', 'B', { depth: '8.10 in', clearDiameter: '0.80 in' }),
    step('21', 'M5'),
    step('22', 'M5', { depth: '4 mm', clearDiameter: '14 mm' }),
    step('23', 'M5', { depth: '600 mm', clearDiameter: '13 mm' }),
    step('31', 'M27', { depth: '600 mm', clearDiameter: '70 mm', swingDeg: 90, handleRadius: '1 m' }),
    step('32', 'M27', { depth: '600 mm' }),
    step('41', 'KEY', { depth: '80 mm', clearDiameter: '24 mm' }),
    step('42', 'LOBE', { depth: '30 mm', clearDiameter: '16 mm' }),
    step('43', 'NUT', { depth: '20 mm', clearDiameter: '26 mm', protrusion: '11 mm' }),
    step('44', 'NUT', { depth: '20 mm', clearDiameter: '26 mm', protrusion: '18 mm' }),
    { id: '50', outing: 'one', role: 'Lead', action: 'use' },
  ],
});

export function stepOf(id: string): ResolvedStep {
  const found = drawingPlan.steps.find((s) => s.id === id);
  if (found === undefined) throw new Error(`The fixture has no step ${id}`);
  return found;
}

export interface DrawnCase {
  name: string;
  step: string;
  stack: string[];
}

export const drawnCases: DrawnCase[] = [
  { name: 'reaches with room to swing', step: '11', stack: ['R-38', 'X-06', 'S-18D'] },
  { name: 'too short', step: '12', stack: ['R-38', 'X-06', 'S-18D'] },
  { name: 'much too short', step: '11', stack: ['R-38', 'S-18D'] },
  { name: 'too wide', step: '11', stack: ['R-38', 'X-06', 'S-18W'] },
  { name: 'stands far out, neither step nor lever fits', step: '13', stack: ['R-38', 'X-06', 'X-06', 'X-03', 'S-18D'] },
  { name: 'short by a hair', step: '14', stack: ['R-38', 'X-06', 'S-18D'] },
  { name: 'exactly long and wide enough', step: '15', stack: ['R-38', 'X-06', 'S-18D'] },
  { name: 'tiny, no access', step: '21', stack: ['R-14', 'S-8'] },
  { name: 'tiny, shallow', step: '22', stack: ['R-14', 'S-8'] },
  { name: 'thin and very deep', step: '23', stack: ['R-14', 'X-L', 'S-8'] },
  { name: 'huge and deep', step: '31', stack: ['B-1', 'X-400', 'X-250', 'S-41'] },
  { name: 'huge, width of hole unknown', step: '32', stack: ['B-1', 'X-400', 'X-250', 'S-41'] },
  { name: 'adapter, universal joint, key', step: '41', stack: ['T-12', 'A-12', 'U-38', 'K-6'] },
  { name: 'hexalobular bit', step: '42', stack: ['R-14', 'L-30'] },
  { name: 'stud proud of its nut', step: '43', stack: ['R-38', 'S-13'] },
  { name: 'stud too long for the socket', step: '44', stack: ['R-38', 'S-13'] },
];
