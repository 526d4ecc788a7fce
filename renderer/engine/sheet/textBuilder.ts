/** Code units at a time handed over as text: more would be more arguments than a call takes. */
const unitsMost = 8192;

/** The text of code units, at most `unitsMost` of them; of bytes below 0x80 too. */
function textOfUnits(units: Uint16Array | Uint8Array): string {
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

  point(code: number): void {
    if (code < 0x10000) {
      this.unit(code);
      return;
    }
    this.unit(0xd800 + ((code - 0x10000) >> 10));
    this.unit(0xdc00 + ((code - 0x10000) & 0x3ff));
  }

  /** A run of bytes each of which is a character by itself. */
  ascii(bytes: Uint8Array, from: number, to: number): void {
    if (this.count > 0) this.hand();
    for (let at = from; at < to; at += unitsMost)
      this.parts.push(textOfUnits(bytes.subarray(at, Math.min(to, at + unitsMost))));
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
