import type { ClosestFit } from '../../../shared-types/bag.ts';
import type { Caution } from '../../../shared-types/plan.ts';

/** What is printed, as texts in the units asked for: the same content is the same text, and its hash names it. */
export interface Manifest {
  /** Of the task alone; `title` has the outing too. */
  name: string;
  title: string;
  task: string;
  site: string | null;
  outing: string;
  rows: ManifestBag[];
  lineCount: number;
  pieceCount: number;
  contentsMass: string;
  /** With the bags themselves; null where that is the same. */
  wholeMass: string | null;
  stepCount: number;
  proof: string[];
  steps: ManifestStep[];
  notes: ManifestNote[];
  assumptions: string[];
  unchecked: string[];
  problems: string[];
  units: string;
}

export interface ManifestBag {
  id: string;
  /** "Lead: rope bag, limit 2.722 kg (6.00 lb)" */
  name: string;
  lines: ManifestLine[];
  pieceCount: number;
  contentsKg: string;
  own: string | null;
}

export interface ManifestLine {
  id: string;
  what: string;
  /** Of a frozen manifest: label, serial, calibration, parts. */
  which: string | null;
  /** What it is set to or made for when it is packed: a value, never "checked". */
  state: string;
  needed: string;
  pieces: number;
  kg: string;
  /** Where a bag's pockets have names: the one it is packed in. */
  pocket?: string;
  /** What of it lies in other pockets: "2 of them in side". */
  apart?: string;
}

export interface ManifestStep {
  number: number;
  id: string;
  name: string;
  who: string;
  cautions: Caution[];
  watchOuts: string[];
  /** "TT-2 torque tool, X-06 extension, S-18D socket, on 3/8-24, 9/16 in hex head" in order. */
  stack: StackLine[];
  hold: StackLine[] | null;
  byHand: string | null;
  gear: string[];
  setting: { text: string; beside: string; applied: string } | null;
  torque: string[];
  source: string | null;
}

export interface StackLine {
  id: string;
  name: string;
}

export interface ManifestNote {
  ids: string[];
  text: string;
}

/** A sheet that says why there is no manifest. */
export interface NoManifest {
  /** Of the task alone; `title` has the outing too. */
  name: string;
  title: string;
  task: string;
  site: string | null;
  outing: string;
  why: string;
  faults: { what: string; reason: string; closest: ClosestFit[] }[];
  problems: string[];
  unchecked: string[];
  units: string;
}
