/** Thousands apart, as the window writes them. */
export function grouped(number: number): string {
  return String(number).replaceAll(/\B(?=(\d{3})+$)/g, ' ');
}
