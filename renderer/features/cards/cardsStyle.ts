/** What cards have beside the manifest's style. Greys only; settings at 18 pt, which is 24 px. */
export const cardsStyle = `
.card{break-after:page;break-inside:auto}
.card:last-of-type{break-after:auto}
.card .top{display:flex;justify-content:space-between;gap:6mm;align-items:flex-start}
.card .time{text-align:right;flex:none}
.card .time b{display:block;font-size:14pt;line-height:18pt}
.card h1{font-size:16pt;line-height:20pt}
.notices{margin:2mm 0 0}
.notice{display:grid;grid-template-columns:30mm 1fr;gap:2mm;padding:.8mm 2mm;break-inside:avoid;border:.3mm solid #000;border-top:0;align-items:baseline}
.notice:first-child{border-top:.3mm solid #000}
.notice .word{font-weight:700;display:flex;align-items:center;gap:1.2mm}
.notice svg{width:4.4mm;height:4.4mm;flex:none}
.notice.word-danger{border-width:1.6mm;font-weight:600}
.notice.word-danger .word{font-size:12pt}
.notice.word-warning{border-width:.9mm}
.notice.word-not-used{border-width:.6mm;border-style:double}
.notice.word-watch-out{background:#eee;border-left-width:1.6mm}
.stack{display:block;width:100%;height:auto;margin:1mm 0 0}
.scene{display:grid;grid-template-columns:110.4mm 1fr;gap:4mm;border-bottom:.35mm solid #000}
.scene .words{align-self:center}
.scene .way-row{margin-bottom:1mm}
.scene .notes{margin-top:1.2mm}
.pair.beside{display:grid;grid-template-columns:89.7mm 89.7mm;justify-content:space-between;align-items:end}
.caption{border-bottom:.35mm solid #000;padding-bottom:.6mm;display:flex;gap:5mm;justify-content:space-between;align-items:center}
.caption .way-row{flex:none}
.way-row{display:flex;align-items:center;gap:3mm;font-size:11pt;line-height:14pt;font-weight:600}
.way-row .small{display:block;font-weight:400}
.turn{width:11mm;height:11mm;flex:none}
.turn .way{fill:none;stroke:#000;stroke-width:4.5}
.turn .head{fill:#000}
.do{line-height:12.4pt}
.do td,.do th{vertical-align:top;padding:.7mm 1.4mm}
.do .small{line-height:10.8pt}
.do .no{width:11mm}
.do .value{width:33mm;text-align:right}
.do .where{width:46mm}
.do td.where{padding-top:1.1mm}
.do .set{font-size:18pt;line-height:21pt;font-weight:700}
.do .limit{font-weight:650}
.do .stop td,.do .stop th{border-top:.5mm solid #000;border-bottom:.5mm solid #000}
.do .stop .reach{font-weight:650}
.do .step th{background:#eee;font-weight:650;border-bottom:.3mm solid #000}
.do .closest td{border-left:1mm solid #000}
.boxes{table-layout:fixed}
.boxes td,.boxes tbody th{border:.25mm solid #777;height:6.4mm;padding:0 1mm;text-align:center}
.boxes thead th{text-align:center;padding:.6mm .6mm;font-size:8.5pt;line-height:10.4pt}
.boxes.wide{margin-top:2.4mm}
.boxes.wide thead th{border-bottom:.4mm solid #000;font-size:10pt;line-height:12.4pt}
.boxes .name,.boxes thead .name{text-align:left;font-weight:600;font-size:8.5pt;line-height:10.4pt}
.groups{display:grid;gap:5mm;align-items:start}
.foot{display:flex;gap:4mm;align-items:flex-start;margin-top:1.2mm}
.pattern{width:46mm;height:46mm;flex:none}
.pattern.page{display:block;width:170mm;height:170mm;margin:3mm auto}
.done{border:.5mm solid #000;padding:1.2mm 2.4mm;margin-top:1.6mm;break-inside:avoid;font-weight:650;display:flex;gap:3mm;align-items:baseline;flex-wrap:wrap}
.done .write{flex:1;min-width:24mm;height:6mm}
.done .when{flex:none;width:20mm}
.notes{flex:1;min-width:0}
.notes,.notes .code{font-size:8pt;line-height:10.4pt}
.notes p{display:inline}
.notes p+p::before{content:"· "}
svg .visible,svg .touched{stroke:#000;stroke-width:var(--wide,2px);stroke-linejoin:round}
svg .narrow,svg .hidden,svg .centre,svg .other,svg .thin{stroke:#222;stroke-width:1}
svg .thin{fill:none}
svg .hidden{stroke-dasharray:7 3}
svg .centre{stroke-dasharray:16 3 2 3}
svg .other{stroke-dasharray:14 3 2 3 2 3}
svg .none{stroke:none}
svg .short,svg .jam{stroke:#000;stroke-width:2;stroke-dasharray:6 3}
svg .fill-none{fill:none}
svg .fill-steel{fill:#ececec}
svg .fill-tool{fill:#f6f6f6}
svg .fill-brass{fill:#c4c4c4}
svg .fill-field{fill:#fff}
svg .fill-cutHost{fill:url(#cutHost)}
svg .fill-cutPlate{fill:url(#cutPlate)}
svg .fill-cutSocket{fill:url(#cutSocket)}
svg .fill-short{fill:url(#short)}
svg .fill-jam{fill:url(#jam)}
svg .ground-cutHost,svg .ground-cutPlate,svg .ground-short,svg .ground-jam{fill:#fff}
svg .ground-cutSocket{fill:#d6d6d6}
svg .cut{stroke:#777;stroke-width:1.2}
svg .arrow{fill:#222}
svg .balloon{fill:#fff;stroke:#000}
svg .label{font:400 12.5px Sheet,SheetMath,sans-serif;fill:#000;stroke:#fff;stroke-width:5px;stroke-linejoin:round;paint-order:stroke}
svg .strong{font-weight:650}
svg .bare{stroke:none}
svg .dark{fill:#000;stroke:#000}
svg .light{fill:#fff;stroke:#000}
`;
