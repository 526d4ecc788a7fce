/** What a report has beside the manifest's style. Greys only. */
export const reportStyle = `
.facts{display:grid;grid-template-columns:max-content 1fr;gap:.6mm 4mm;margin:2mm 0}
.facts dt{font-weight:600}
.facts dd{margin:0}
.counts{margin:2mm 0}
.counts td,.counts tbody th{vertical-align:top}
.counts .num{font-weight:650}
.found tbody{break-inside:auto}
.found td{vertical-align:top;font-size:9pt;line-height:11.4pt;padding:.6mm 1.4mm}
.found .band td{font-size:9.5pt;line-height:12pt;vertical-align:middle}
.found .num{font-size:8.5pt}
.found .band .said{font-weight:400}
.found .more td{font-size:8.5pt;line-height:11pt}
.mark{display:inline-flex;align-items:center;gap:1.4mm;white-space:nowrap}
.mark svg{width:6mm;height:4.4mm;flex:none;overflow:visible}
.accepted{border-left:1mm double #000;padding-left:1.6mm;margin-top:.8mm}
.sources li{break-inside:avoid}
.closing{break-inside:avoid}
`;
