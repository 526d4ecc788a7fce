/** A PDF of plain pages, each saying which it is: small enough to write by hand, whole enough for any reader. */
export function pdfOfPages(count: number): Uint8Array {
  const bodies: string[] = ['<</Type/Catalog/Pages 2 0 R>>'];
  const first = 4;
  const pages = Array.from({ length: count }, (_, index) => `${first + index * 2} 0 R`).join(' ');
  bodies.push(`<</Type/Pages/Count ${count}/Kids[${pages}]>>`);
  bodies.push('<</Type/Font/Subtype/Type1/BaseFont/Helvetica>>');
  for (let index = 0; index < count; index += 1) {
    const text = `BT /F 24 Tf 60 700 Td (This is page ${index + 1}) Tj ET`;
    bodies.push(
      `<</Type/Page/Parent 2 0 R/MediaBox[0 0 595 842]/Resources<</Font<</F 3 0 R>>>>/Contents ${first + index * 2 + 1} 0 R>>`,
    );
    bodies.push(`<</Length ${text.length}>>stream\n${text}\nendstream`);
  }
  let file = '%PDF-1.4\n';
  const offsets = bodies.map((body, index) => {
    const at = file.length;
    file += `${index + 1} 0 obj${body}endobj\n`;
    return at;
  });
  const table = offsets.map((at) => `${String(at).padStart(10, '0')} 00000 n \n`).join('');
  const end = `xref\n0 ${bodies.length + 1}\n0000000000 65535 f \n${table}trailer<</Size ${bodies.length + 1}/Root 1 0 R>>\nstartxref\n${file.length}\n%%EOF\n`;
  return new TextEncoder().encode(file + end);
}
