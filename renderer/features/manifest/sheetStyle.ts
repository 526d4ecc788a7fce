/** Greys only, nothing under 8 pt, the body at 10 pt; sizes in paper's own units. */
export const sheetStyle = `
*{box-sizing:border-box}
html{margin:0}
body{margin:0;background:#fff;color:#000;font:400 10pt/13.4pt Sheet,SheetMath,sans-serif;font-variant-numeric:tabular-nums;font-feature-settings:"tnum";overflow-wrap:anywhere}
h1{font-size:18pt;line-height:22pt;font-weight:650;margin:0}
.outing{font-size:14pt;line-height:18pt}
h2{font-size:13pt;line-height:17pt;font-weight:650;margin:6mm 0 1.5mm;break-after:avoid}
p{margin:0}
ul{margin:0;padding:0 0 0 4.5mm}
li{margin:0 0 .8mm;break-inside:avoid}
.small,.small .code{font-size:8.5pt;line-height:11.4pt}
.code{display:inline-block;max-width:100%;font-family:SheetMono,SheetMath,monospace;font-size:10pt}
th.code{display:table-cell}
.lead{margin-top:1.5mm}
.caution{border:.5mm solid #000;padding:1.6mm 2.6mm;margin:3mm 0;font-size:9pt;line-height:11.8pt}
table{border-collapse:collapse;width:100%;table-layout:fixed}
thead{display:table-header-group}
tr{break-inside:avoid}
th{font-weight:600;text-align:left;vertical-align:bottom}
thead th{font-size:8.5pt;line-height:11pt;padding:1mm 1.6mm;border-bottom:.4mm solid #000}
td,tbody th{padding:.9mm 1.6mm;border-bottom:.2mm solid #999;vertical-align:middle;font-weight:400}
.num{text-align:right}
.mid{text-align:center}
.band th,.band td{background:#e9e9e9;font-weight:650;border-top:.3mm solid #000;border-bottom:.3mm solid #000;break-after:avoid}
.band .own{font-weight:400}
.part th{background:#f4f4f4;font-weight:600;font-size:8.5pt;line-height:11pt;border-top:.3mm solid #000;break-after:avoid}
.box{display:inline-block;width:5.4mm;height:5.4mm;border:.4mm solid #000;vertical-align:middle}
.write{border-bottom:.25mm solid #000;display:inline-block;width:18mm}
.total th,.total td{font-weight:650;border-top:.4mm solid #000;border-bottom:.4mm solid #000}
table:not(.steps) tbody{break-inside:avoid}
.close td{border:0;padding:0}
.end{display:flex;justify-content:space-between;gap:4mm;font-weight:650;margin-top:2.4mm}
.sign{display:grid;grid-template-columns:repeat(3,1fr);border:.3mm solid #000;margin-top:3mm;break-inside:avoid}
.sign>div{border-right:.3mm solid #000;padding:1.4mm 2.2mm 1.6mm;font-size:8.5pt;line-height:11pt}
.sign>div:last-child{border-right:0}
.sign b{font-size:10pt;line-height:13pt}
.sign i{display:block;font-style:normal;border-top:.25mm solid #000;margin-top:7.4mm}
.sign .two{display:grid;grid-template-columns:1fr 1fr;gap:3mm}
.steps td,.steps tbody th{vertical-align:top}
.set{font-size:14pt;line-height:17pt;font-weight:650}
.watch{border-left:1mm solid #000;padding-left:1.6mm;font-weight:600;margin-bottom:1mm}
.fault{break-inside:avoid;border-left:1mm solid #000;padding-left:2.4mm;margin-bottom:3mm}
.name{font-weight:600}
.frozen{display:flex;align-items:center;gap:2mm;break-inside:avoid}
.frozen .square{flex:none}
.bag{margin:0 0 4mm;break-inside:avoid}
.bag svg{display:block;overflow:visible}
.bag .field{fill:none;stroke:#000;stroke-width:1.4}
.bag .piece{fill:#e9e9e9;stroke:#000;stroke-width:1}
.bag .within{fill:none;stroke:#555;stroke-width:.8}
.whole{white-space:nowrap}
bdi{unicode-bidi:isolate}
`;
