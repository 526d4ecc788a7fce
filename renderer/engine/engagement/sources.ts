import type { EngagementSource } from '../../../shared-types/engagement.ts';

/** Where the formulas of this folder are published. */
export const strippingFormulas: EngagementSource = {
  title: 'Screw-thread standards for federal services: formulas of thread shear areas and length of engagement',
  number: 'FED-STD-H28/2B',
  edition: '1991, as reproduced',
  table: 'shear area formulas',
  publisher: 'US federal standard',
  obtained: 'text found',
};

export const limitFormulas: EngagementSource = {
  title: 'Unified inch screw threads: formulas of limits of size',
  number: 'ASME B1.1',
  edition: '2003/2019',
  table: 'tolerance and allowance formulas, classes 2A, 3A, 2B, 3B',
  publisher: 'ASME',
  obtained: 'from memory',
};

export const insertFormulas: EngagementSource = {
  title: 'Installation Torque Tables for Noncritical Applications: strength of threaded inserts',
  number: 'NASA TM-106943',
  edition: '1995',
  table: 'equation 63 and Table III',
  publisher: 'NASA',
  obtained: 'text found',
};
