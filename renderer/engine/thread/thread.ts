export type Series = 'coarse' | 'fine' | 'UNC' | 'UNF' | 'UNJC' | 'UNJF' | 'special';

/** A thread as its designation says it, with its basic sizes. */
export interface Thread {
  /** Normalised: always with its pitch, "M10x1.5", "1/4-28 UNF-3A LH". Reads back as the same thread. */
  designation: string;
  system: 'metric' | 'unified';
  series: Series;
  majorMm: number;
  pitchMm: number;
  threadsPerInch: number | null;
  pitchDiameterMm: number;
  /** Basic minor diameter D1. */
  minorDiameterMm: number;
  /** Root of the external thread: ISO d3, UNR reference; null for UNJ, of which none is held. */
  rootDiameterMm: number | null;
  stressAreaMm2: number;
  hand: 'right' | 'left';
  /** Tolerance class as designated: "6g", "3A"; null where none is. */
  class: string | null;
  /** The size alone, as tables list it: "M10", "1/4", "10" for number 10. */
  size: string;
}
