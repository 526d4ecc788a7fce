/** Code units at a time handed over as text: more would be more arguments than a call takes. */
export const unitsMost = 8192;

/** The text of code units, at most `unitsMost` of them. */
export function textOfUnits(units: Uint16Array): string {
  return String(Reflect.apply(String.fromCharCode, null, units));
}

/** Gathers a long text unit by unit without a string for each. */
export class TextBuilder {
  private readonly units = new Uint16Array(unitsMost);
  private count = 0;
  private readonly parts: string[] = [];

  unit(code: number): void {
    if (this.count === unitsMost) this.hand();
    this.units[this.count] = code;
    this.count += 1;
  }

  text(): string {
    this.hand();
    return this.parts.join('');
  }

  private hand(): void {
    this.parts.push(textOfUnits(this.units.subarray(0, this.count)));
    this.count = 0;
  }
}
