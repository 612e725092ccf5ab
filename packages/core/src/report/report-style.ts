/**
 * How a report looks: a drawing office's record sheet on tracing linen; by night a blueprint; on paper black ink.
 * Parts are as large as they are (CSS `mm`), pages and photos as large as there is room.
 */
export const reportStyle = `
:root{--ground:#efeadd;--sheet:#faf7ef;--ink:#1c2833;--soft:#4c5965;--line:#7d8790;--hair:#c9c3b2;--blue:#1c4a78;--red:#96290f;--paper:#fff;
--lettering:"Avenir Next Condensed","Roboto Condensed","Arial Narrow","Liberation Sans Narrow","Helvetica Neue",Arial,sans-serif;
--hand:"Iowan Old Style",Charter,"Bitstream Charter","Source Serif 4",Georgia,"Liberation Serif",serif}
@media (prefers-color-scheme:dark){:root{--ground:#0c2033;--sheet:#11293f;--ink:#e4ecf3;--soft:#b4c4d3;--line:#6f8ba6;--hair:#2c4963;--blue:#a8cdf2;--red:#ffb39c;--paper:#fff}}
*{box-sizing:border-box}
html{background:var(--ground);color:var(--ink);font:1rem/1.5 var(--hand);-webkit-text-size-adjust:100%;text-size-adjust:100%}
body{margin:0 auto;padding:1.5rem clamp(.9rem,3vw,2.5rem) 3rem;max-width:66rem}
a{color:var(--blue);text-underline-offset:.15em}
a:focus-visible,[tabindex]:focus-visible{outline:3px solid var(--blue);outline-offset:3px}
main:focus{outline:none}
.skip{position:absolute;left:-100vw;padding:.5rem 1rem;background:var(--sheet);z-index:1}
.skip:focus{left:1rem;top:1rem}
.store{position:absolute}
.label,dt,th,.no,nav,h2,h3,h4{font-family:var(--lettering)}
.label,dt,thead th{font-size:.75rem;letter-spacing:.09em;text-transform:uppercase;color:var(--soft);font-weight:500}
.block{border:3px double var(--ink);background:var(--sheet)}
.block .name{padding:1.1rem 1.25rem .9rem;border-bottom:1px solid var(--ink)}
.block .label{margin:0}
h1{margin:.1rem 0 0;font:500 clamp(1.7rem,5vw,2.7rem)/1.15 var(--lettering);letter-spacing:.02em;overflow-wrap:anywhere}
.block dl{display:flex;flex-wrap:wrap;margin:0;overflow:hidden}
.block dl div{flex:1 1 8rem;margin:0 0 -1px -1px;padding:.5rem 1.25rem .6rem;border:solid var(--ink);border-width:0 0 1px 1px}
.block dd{margin:0;font-size:1.05rem;font-variant-numeric:lining-nums tabular-nums}
nav ol{display:flex;flex-wrap:wrap;gap:.2rem 1.4rem;list-style:none;margin:1rem 0 0;padding:0;letter-spacing:.03em}
nav a{display:inline-block;padding:.3rem 0}
section{margin-top:2.6rem}
h2{margin:0 0 1.1rem;padding-top:.5rem;border-top:3px double var(--ink);font-size:1.35rem;font-weight:500;letter-spacing:.12em;text-transform:uppercase}
h3{margin:0 0 .8rem;font-size:1.25rem;font-weight:500;overflow-wrap:anywhere}
h4{margin:1.2rem 0 .6rem;font-size:1.05rem;font-weight:500;overflow-wrap:anywhere}
h3 small{margin-left:.6rem;font-size:.95rem;font-weight:400;color:var(--soft)}
.no{display:inline-block;min-width:2.6rem;margin-right:.5rem;padding:0 .4rem;border:1px solid var(--ink);text-align:center;font-size:.95rem;letter-spacing:.05em}
.entry{padding:1.2rem 0 1.6rem;border-top:1px solid var(--hair)}
h2+.entry{border-top:0;padding-top:0}
.pair{display:grid;grid-template-columns:minmax(0,3fr) minmax(0,2fr);gap:1.5rem;align-items:start}
figure{margin:0}
figcaption{margin-top:.4rem;font-size:.9rem;color:var(--soft)}
img{display:block;max-width:100%;height:auto;background:var(--paper)}
.tilings{display:flex;flex-wrap:wrap;gap:1.4rem;margin-top:1.4rem}
.tiling{width:min(100%,var(--w,168mm))}
.tiling img{width:100%}
.tiling figcaption{min-width:min(16rem,80vw)}
.facts{display:grid;margin:0;border-top:1px solid var(--hair)}
.facts div{padding:.35rem 0;border-bottom:1px solid var(--hair)}
.facts dd{margin:0;overflow-wrap:anywhere;font-variant-numeric:lining-nums}
.facts.wide{grid-template-columns:repeat(auto-fit,minmax(min(11rem,45%),1fr));column-gap:1.5rem;margin-top:.9rem}
.facts.wide div{border-bottom:0}
.soft{color:var(--soft)}
.fault,.faults .said{color:var(--red)}
.none{padding:.8rem 1rem;border:1px dashed var(--line);margin:0}
.scroll{overflow-x:auto;max-width:100%}
.true{padding:3px 3px 0}
.true svg{display:block;width:calc(var(--w)*var(--s,1));height:calc(var(--h)*var(--s,1))}
.part{outline:1px solid var(--line)}
.bar{margin-top:2.5mm;overflow:visible}
.bar text{font:2.9px var(--lettering);fill:currentColor;text-anchor:middle}
.bar .unit{text-anchor:start}
.printed{display:none}
.pages{display:flex;flex-wrap:wrap;gap:1.5rem}
.pages figure{width:var(--w);max-width:100%}
.page{display:block;width:100%;height:auto;background:var(--paper);outline:1px solid var(--line)}
.sheets{display:flex;flex-wrap:wrap;gap:0 2rem}
.page text{font-family:Arial,"Liberation Sans",sans-serif;fill:#000}
table{border-collapse:collapse;width:100%;font-variant-numeric:lining-nums tabular-nums}
th,td{padding:.4rem .9rem .4rem 0;border-bottom:1px solid var(--hair);text-align:left;vertical-align:baseline}
tbody th{font-weight:500}
thead th{border-bottom:1px solid var(--ink);white-space:nowrap}
.scroll+.entry{margin-top:1.4rem}
.notes{margin:0;padding:0;list-style:none}
.notes li{padding:.7rem 0;border-top:1px solid var(--hair)}
.said{margin:0 0 .2rem;overflow-wrap:anywhere}
.todo{margin:.3rem 0 0;padding-left:1rem;border-left:3px solid var(--blue)}
.todo .label{margin-right:.4rem}
code{font-size:.9em;overflow-wrap:anywhere}
.cautions{padding-left:1.2rem;max-width:44rem}
.cautions li{margin:.4rem 0}
footer{margin-top:2.6rem;padding-top:.6rem;border-top:1px solid var(--ink);font-size:.9rem;color:var(--soft)}
@media (max-width:44rem){.pair{grid-template-columns:minmax(0,1fr)}.block .name,.block dl div{padding-left:.9rem;padding-right:.9rem}}
@media print{
@page{margin:12mm}
:root{--ground:#fff;--sheet:#fff;--ink:#000;--soft:#333;--line:#666;--hair:#aaa;--blue:#000;--red:#000}
html{font-size:10pt}
body{padding:0;max-width:none}
nav,.skip{display:none}
a{text-decoration:none}
.scroll{overflow:visible}
.true{--s:var(--k)}
.printed{display:block;margin:.3rem 0 0}
.part,.page,img{print-color-adjust:exact;-webkit-print-color-adjust:exact}
h2,h3,h4,h3+p{break-after:avoid}
figure,tr,.notes li,.true,.block,.facts div,.entry,.pair,.cautions{break-inside:avoid}
.surface{break-inside:auto}
.sheets .entry{max-width:100%}
.tiling{width:min(var(--w,78mm),78mm)}
.pair img{max-height:96mm;width:auto}
.facts.wide{grid-template-columns:repeat(auto-fit,minmax(30mm,1fr))}
.pair{grid-template-columns:minmax(0,3fr) minmax(0,2fr)}
}
`;
