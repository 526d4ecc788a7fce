/** A number without a unit: "45", "45.5", "45,5", "1/2", "1-1/8", "-5". */
const bare = /^[+-]?\d[\d.,]*(?:[eE][+-]?\d+)?(?:(?: |-)\d+\/\d+|\/\d+)?$/;

/** Whether a cell is a number and nothing else. */
export function isBareNumber(cell: string): boolean {
  return bare.test(cell.trim());
}
