/** The part of js-quantities that is measured; it brings no types. */
declare module 'js-quantities' {
  interface Quantity {
    scalar: number;
    to(unit: string): Quantity;
  }
  const Qty: {
    (text: string): Quantity;
    (value: number, unit: string): Quantity;
    swiftConverter(from: string, to: string): (value: number) => number;
  };
  export default Qty;
}
