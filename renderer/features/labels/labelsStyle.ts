import { headingMm } from './labelForm.ts';

/** Beside the rules of every printed document: labels in their places, black on white, nothing under 8 pt. */
export const labelsStyle = `
.heading{height:${headingMm}mm;overflow:hidden}
.heading h1{font-size:14pt;line-height:17pt;max-height:34pt;overflow:hidden}
.heading .caution{margin:1.5mm 0 0}
.page{position:relative;break-inside:avoid}
.page+.page{break-before:page}
.page svg{position:absolute;left:0;top:0;display:block;overflow:hidden}
.label{position:absolute;overflow:hidden}
.words,.digits{position:absolute;overflow:hidden;font-size:8pt;line-height:3.3mm}
.words>*,.digits>*{display:block;overflow:hidden;white-space:nowrap;text-overflow:ellipsis}
.words .what{font-weight:700;font-size:9pt;line-height:3.8mm}
.words .name{font-weight:400;display:-webkit-box;-webkit-box-orient:vertical;white-space:normal;overflow-wrap:anywhere}
.row{display:flex!important;justify-content:space-between;gap:2mm}
.row>*{overflow:hidden;text-overflow:ellipsis}
.row .said{flex:none;max-width:62%}
.tag{font-family:SheetMono,SheetMath,monospace;font-size:8pt;line-height:3.3mm}
.digits{text-align:center}
`;
