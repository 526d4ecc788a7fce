/** Typed quantities in and shown quantities out. Nothing else in the program reads or converts a unit. */
export { allUnits, kindOf, unitsOf, type Kind, type Unit, type UnitsShown } from './kinds.ts';
export { convertValue } from './convert.ts';
export { readUnit } from './readUnit.ts';
export { quantityIn, readQuantity, type Quantity } from './readQuantity.ts';
export { bandIn, roundInward, roundNominal, showNumber, type ShownBand } from './round.ts';
export { showBand, showQuantity } from './show.ts';
