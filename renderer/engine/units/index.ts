/** Typed quantities in and shown quantities out. Nothing else in the program reads or converts a unit. */
export { allUnits, kindOf, unitsOf, type Kind, type Unit, type UnitsShown } from './kinds.ts';
export { converter, convertValue } from './convert.ts';
export { readUnit } from './readUnit.ts';
export { quantityIn, readQuantity } from './readQuantity.ts';
export { bandIn, roundInward, roundNominal, showNumber } from './round.ts';
export { limitIn, showBand, showLimit, showQuantity } from './show.ts';
