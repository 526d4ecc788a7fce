import { headingMm } from './labelForm.ts';
import type { LabelForm, LabelPlaces } from './labelForm.ts';

const mm = (value: number): string => `${Math.round(value * 1000) / 1000}mm`;

/**
 * Beside the rules of every printed document: labels in their places, black on white, nothing under 8 pt. Where words lie is said once for all
 * labels. On the screen stand only the signs they use, for their fonts to be there: they would be laid out twice.
 */
export function labelsStyle(places: LabelPlaces, { on, widthMm, heightMm }: LabelForm): string {
  const { dots, words, digits, nameLines, square } = places;
  const [wide, high] = on === 'single' ? [widthMm, heightMm] : [places.width * dots.dotMm, places.height * dots.dotMm];
  const right = wide - words.leftMm - words.widthMm;
  return `
@media screen{body>:not(.signs){display:none}}
@media print{.signs{display:none}}
.signs{font-weight:700}
.signs i{font:400 8pt SheetMono,SheetMath,monospace}
.heading{height:${headingMm}mm;overflow:hidden}
.heading h1{font-size:14pt;line-height:17pt;max-height:34pt;overflow:hidden}
.heading .caution{margin:1.5mm 0 0}
.page{position:relative;break-inside:avoid}
.page+.page{break-before:page}
.page svg{position:absolute;left:0;top:0;display:block;overflow:hidden}
.label{position:absolute;overflow:hidden;width:${mm(wide)};height:${mm(high)};padding:${mm(words.topMm)} ${mm(right)} 0 ${mm(words.leftMm)};font-size:8pt;line-height:3.3mm}
.page.label{position:relative}
.label>*{display:block;overflow:hidden;white-space:nowrap;text-overflow:ellipsis;text-decoration:none;font-style:normal;font-weight:400}
.label>svg{position:absolute}
.label>b{font-weight:700;font-size:9pt;line-height:3.8mm}
.label>span{display:-webkit-box;-webkit-box-orient:vertical;-webkit-line-clamp:${nameLines};white-space:normal;overflow-wrap:anywhere}
.label>u{font-family:SheetMono,SheetMath,monospace${digits === null ? '' : `;position:absolute;left:${mm(digits.leftMm)};top:${mm(digits.topMm)};width:${mm(digits.widthMm)};text-align:center`}}
${square === null ? '.label>i{float:right;max-width:38mm;padding-left:2mm}\n.label>i+b{min-width:10mm}' : ''}
.label.head{padding:0.8mm 1.5mm}
.label.head>span{display:block;white-space:nowrap}
`;
}
