import { drawingStyles, fontFamily, tokenStyles } from "../core/drawing/stylesheet.ts";

/** Paper and ink, light, dark and in print: the drawings' own tokens and line kinds, and the page's few rules around them. */
export const sheetStyle = `${tokenStyles}
${drawingStyles}
*{box-sizing:border-box}
body{margin:0;background:var(--paper);color:var(--ink);font:1.0625rem/1.45 ${fontFamily};font-variant-numeric:tabular-nums lining-nums}
main{max-width:1120px;margin:0 auto;padding:24px 24px 48px}
h1{font-size:1.75rem;font-weight:500;line-height:1.1;margin:0 0 4px}
h2{font-size:1.375rem;font-weight:500;line-height:1.25;margin:40px 0 8px}
h3{font-size:.9375rem;font-weight:600;margin:24px 0 4px}
p{max-width:70ch;margin:0 0 8px}
.lead{font-size:1.375rem;line-height:1.3;margin:16px 0 24px}
.second,small,.meaning{color:var(--ink-2)}
small{font-size:.8125rem}
.meaning{font-size:.8125rem;font-weight:400;margin:2px 0 0;max-width:46ch}
.within{color:var(--within)}.out{color:var(--out)}.unknown{color:var(--ink)}
table{border-collapse:collapse;width:100%;font-size:.9375rem}
th,td{text-align:left;vertical-align:top;padding:8px 12px 8px 0;border-bottom:1px solid var(--hair)}
thead th{font-size:.8125rem;font-weight:400;color:var(--ink-2);vertical-align:bottom}
tbody th{font-weight:500}
th.num,td.num{text-align:right;white-space:nowrap}
.findings{table-layout:fixed}.findings th:nth-child(2){width:11rem}.findings th:nth-child(3){width:8rem}.findings th:nth-child(4){width:212px}.findings th:nth-child(5){width:6rem}
.bar svg{display:block;width:200px;height:28px}
.drawing{overflow-x:auto;margin:0 -24px;padding:0 24px}.drawing svg{display:block;width:900px;max-width:none;height:auto}
.drawing:focus-visible{outline:3px solid var(--act);outline-offset:-3px}
.held{border:2px solid var(--ink);padding:0 16px 8px;margin:0 0 24px}.held h2{margin-top:12px}
@media (max-width:700px){main{padding:16px}.drawing{margin:0 -16px;padding:0 16px}
.findings thead{position:absolute;clip-path:inset(50%);width:1px;height:1px;overflow:hidden}
.findings tr{display:grid;grid-template-columns:1fr auto;gap:0 12px;padding:8px 0;border-bottom:1px solid var(--hair)}
.findings th,.findings td{border:0;padding:0}.findings th{grid-column:1/-1}.findings td.num{white-space:normal;text-align:left}.findings td:nth-child(3)::before{content:"limit "}.findings td.num:empty{display:none}
.bar{grid-column:1}}
@media print{main{max-width:none;padding:0}h2{break-after:avoid}tr{break-inside:avoid}.drawing{overflow:visible}.drawing svg{width:100%}}
`;
