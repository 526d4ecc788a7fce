import type { Decision } from '../../../shared-types/judged.ts';

/** Two limits and a bar: within them, beyond them, across one of them. The same shapes as on the screen. */
const shapes: Record<Decision, string> = {
  conforming: "<path d='M6 2V14M15 2V14'/><rect x='8' y='5.5' width='5' height='5' fill='black'/>",
  nonconforming:
    "<path d='M6 2V14M15 2V14'/><rect x='16.8' y='5.5' width='5' height='5' fill='black'/><rect y='5.5' width='4.4' height='5' fill='black'/>",
  indeterminate: "<path d='M6 2V14M15 2V14'/><rect x='11.2' y='5.5' width='8' height='5'/>",
};

function shapeRule([decision, shape]: [string, string]): string {
  const picture = `<svg xmlns='http://www.w3.org/2000/svg' width='22' height='16' fill='none' stroke='black' stroke-width='1.6'>${shape}</svg>`;
  return `.mark.${decision}{background-image:url("data:image/svg+xml,${encodeURIComponent(picture)}")}`;
}

/**
 * What a report has beside the manifest's style. Greys only. A page is made of it and nothing else: on the screen stand only
 * the signs it uses, for their fonts to be there, as thousands of rows would be laid out once more for nobody.
 */
export const reportStyle = `
@media screen{body>:not(.signs){display:none}}
@media print{.signs{display:none}}
.facts{display:grid;grid-template-columns:max-content 1fr;gap:.6mm 4mm;margin:2mm 0}
.facts dt{font-weight:600}
.facts dd{margin:0}
.counts{margin:2mm 0}
.counts td,.counts tbody th{vertical-align:top}
.counts .num{font-weight:650}
.found td{vertical-align:top;font-size:9pt;line-height:11.4pt;padding:.6mm 1.4mm}
.found .band td{font-size:9.5pt;line-height:12pt}
.found .said{font-weight:400}
.found .more{font-weight:400;font-size:8.5pt;line-height:11pt}
.found tbody:not(.last) tr.band:last-child td{break-after:auto}
.found .last tr:last-child td{break-after:avoid}
.mark.mark{background-repeat:no-repeat;background-size:6mm 4.4mm;white-space:nowrap;font-weight:650}
b.mark.mark{background-position:0 50%;padding-left:7.6mm}
.found td.mark{background-position:1.4mm .6mm;padding-left:9mm}
${Object.entries(shapes).map(shapeRule).join('\n')}
.accepted{border-left:1mm double #000;padding-left:1.6mm;margin-top:.8mm}
.sources li{break-inside:avoid}
.closing{break-inside:avoid}
`;
