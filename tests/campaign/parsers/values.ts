/** Readers of single values and of JSON inputs: what the headless commands and the forms read. */
import { engagementFrom } from '../../../renderer/engine/engagement/readEngagement.ts';
import { readJson } from '../../../renderer/engine/json/readJson.ts';
import { planFrom, readPlan } from '../../../renderer/engine/plan/readPlan.ts';
import { torquePlausibility } from '../../../renderer/engine/plausibility/index.ts';
import { jointTask } from '../../../renderer/engine/preload/index.ts';
import { settingFrom } from '../../../renderer/engine/setting/readSetting.ts';
import { toolSetting } from '../../../renderer/engine/setting/toolSetting.ts';
import { readStrength } from '../../../renderer/engine/strength/index.ts';
import { readTag, tagText } from '../../../renderer/engine/tag/index.ts';
import { readThread } from '../../../renderer/engine/thread/index.ts';
import { readNumber } from '../../../renderer/engine/units/readNumber.ts';
import { readQuantity, readUnit } from '../../../renderer/engine/units/index.ts';
import { told } from '../../electron/headless/inProcess.ts';
import { smallPlan } from '../../support/smallPlan.ts';
import { must } from '../part.ts';
import { readsText, readsValue, refused, type FuzzReader } from './reader.ts';

const quantities = ['45 lbf·ft', '7/16 in', '1-1/8 in', '12 mm', '-3.5e2 N·m', '600 N/mm²', '20 in-oz'];
const threads = ['M10x1.25-6g', '1/4-28 UNF-3A', '.2500-28 UNJF-3A', '#10-32', '1-1/8-12 UNF', '5/8-11 UNC-2B LH'];
const strengths = ['SAE J429 grade 5', 'SAE J429 grade 8', 'ASTM A354 grade BD', '8.8', 'A2-70'];
const half = readThread('1/2-13');
const joint = {
  thread: 'M10',
  strength: '8.8',
  friction: { thread: 0.12, bearing: 0.14, bearingDiameterMm: 13 },
  torque: { min: '40 N·m', max: '48 N·m' },
  running: { min: '1 N·m', max: '3 N·m' },
  torqueIs: 'wrench',
  scatter: 0.1,
  relaxation: { share: 0.05, form: 'divide' },
  thermalN: { gain: 100, loss: 200 },
  stop: { driver: { name: 'bar', max: '300 N·m' }, parts: [{ name: 'socket', ratedTorque: '200 N·m' }] },
};
const otherScrew = {
  thread: { meanDiameterMm: 22.5, leadMm: 5, halfAngleDeg: 14.5, rootDiameterMm: 20 },
  strength: { yieldMPa: 400 },
  nutFactor: { nominal: 0.2, min: 0.15, max: 0.25, diameterMm: 25 },
  preload: '20 kN',
};
const engagement = {
  thread: '1/2-13 UNC',
  externalClass: '2A',
  internalClass: '2B',
  engagement: '0.5 in',
  externalUltimate: '120 ksi',
  internalUltimate: '60 ksi',
};
const setting = {
  callout: { min: '30 lbf·ft', max: '35 lbf·ft' },
  running: { min: '10 lbf·in', max: '80 lbf·in' },
  runningIncluded: false,
  tool: { min: 10, max: 75, increment: 1, unit: 'lbf·ft', accuracyOfReading: 0.04, lever: '15 in' },
  offsetHead: { length: '2 in', angleDeg: 90 },
  rangeShareMin: 0.2,
  siteTemperature: '31 °C',
  distribution: { form: 'normal', coverage: 0.95 },
  windUp: [{ length: '150 mm', shearModulus: '80 GPa', outsideDiameter: '12 mm' }],
  turning: { length: '20 mm', thread: 'M10', swingDeg: 40, stepDeg: 5 },
};
const planTexts = [JSON.stringify(smallPlan()), JSON.stringify(smallPlan(), null, 1)];

/** A command as a line of a batch: exit 2 is its refusal, and `internal` no refusal at all. */
const command = (name: string, weight: number, argument: unknown): FuzzReader =>
  readsValue(`command ${name}`, weight, [argument], async (value) => {
    const given = typeof value === 'object' && value !== null ? (value as Record<string, unknown>) : String(value);
    const answer = await told<unknown>(name, ...(name === 'bag' ? [given] : ['--file', given]));
    if (answer.exit !== 2) return answer.result;
    // A text is the name of a file, and this command was given none.
    const isFile = typeof given === 'string' && answer.error.message.includes('reads no file');
    must(isFile || answer.error.code !== 'internal', 'broken', `${name}: ${answer.error.message}`);
    return refused;
  });

const labels = [
  tagText({ kind: 'item', tag: 123, piece: 4 }),
  tagText({ kind: 'bag', tag: 7, piece: 0 }),
  '1 000123 004 69',
];

export const valueReaders: readonly FuzzReader[] = [
  readsText('readQuantity', 8, quantities, (text) => readQuantity(text)),
  readsText('readQuantity of a kind', 8, quantities, (text) => readQuantity(text, 'torque')),
  readsText('readUnit', 8, ['lbf·ft', 'kgf·cm', 'N/mm²', 'mN·m', 'in-lbs'], (text) => readUnit(text)),
  readsText('readNumber', 8, quantities, readNumber),
  readsText('readThread', 8, threads, readThread),
  readsText('readStrength', 8, strengths, (text) => readStrength(text, { thread: half, field: 'strength' })),
  readsText('torquePlausibility', 8, quantities, (text) =>
    torquePlausibility({ thread: '1/4-28', torque: { min: text, max: text } }),
  ),
  readsText('readJson', 2, planTexts, (text) => readJson(text, { maxBytes: 2 ** 20 })),
  readsText('readPlan', 2, planTexts, (text) => readPlan(text)),
  readsValue('planFrom', 2, [smallPlan()], (value) => planFrom(value)),
  readsValue('jointTask', 2, [joint, otherScrew], (value) => jointTask(value)),
  readsValue('engagementFrom', 2, [engagement], (value) => engagementFrom(value)),
  readsValue('settingFrom', 2, [setting], (value) => toolSetting(settingFrom(value))),
  command('preload', 2, joint),
  command('engagement', 2, engagement),
  command('setting', 2, setting),
  command('bag', 1, smallPlan()),
  readsText('a label’s number', 8, labels, (text) => {
    const read = readTag(text);
    if (!('refused' in read)) return read;
    must(read.refused !== '', 'broken', `“${text}” is refused without a word`);
    return refused;
  }),
];
