import { INK } from "../chart/palette.js";

/** The CSS of the page: the colours of the charts, one column on phones, black on white on paper. */
export const STYLE: string = `
:root { color-scheme: light; }
body { margin: 0; background: ${INK.paper}; color: ${INK.ink}; font: 15px/1.45 "Source Sans 3", "Segoe UI", "Helvetica Neue", Arial, "DejaVu Sans", sans-serif; }
main { max-width: 760px; margin: 0 auto; padding: 20px 20px 40px; overflow-wrap: anywhere; }
h1 { font-size: 22px; line-height: 1.2; margin: 0 0 4px; }
h2 { font-size: 17px; margin: 30px 0 8px; border-top: 1px solid ${INK.hair}; padding-top: 14px; }
h3 { font-size: 15px; margin: 18px 0 4px; }
p, ul { margin: 6px 0; }
ul { padding-left: 20px; }
.quiet { color: ${INK.muted}; }
.stuck { border-left: 4px solid ${INK.beyond}; padding: 2px 0 2px 12px; margin: 10px 0; break-inside: avoid; }
.chart { margin: 12px 0; break-inside: avoid; }
.chart svg { display: block; max-width: 100%; height: auto; }
.phone { display: none; }
table { border-collapse: collapse; width: 100%; font-size: 14px; font-variant-numeric: tabular-nums; }
th, td { text-align: left; vertical-align: top; padding: 5px 12px 5px 0; border-bottom: 1px solid ${INK.hair}; }
th { font-weight: 600; color: ${INK.muted}; font-size: 13px; }
td:first-child { min-width: 6.5em; }
td.day { white-space: nowrap; }
td.number, th.number { text-align: right; white-space: nowrap; }
tr { break-inside: avoid; }
thead { display: table-header-group; }
footer { margin-top: 34px; border-top: 1px solid ${INK.hair}; padding-top: 12px; font-size: 13px; color: ${INK.muted}; }
@media (max-width: 560px) {
  main { padding: 14px 14px 30px; }
  .wide { display: none; }
  .phone { display: block; margin-left: -14px; margin-right: -14px; }
  thead { display: none; }
  table, tbody, tr, td { display: block; }
  tr { padding: 6px 0; border-bottom: 1px solid ${INK.hair}; }
  td { border: 0; padding: 1px 0; }
  td:first-child { font-weight: 600; }
  td.number { display: inline-block; padding-right: 14px; text-align: left; white-space: normal; }
  .phone svg { width: 100%; }
  td[data-is]::before { content: attr(data-is) ": "; color: ${INK.muted}; }
  td:empty { display: none; }
}
@media print {
  body { background: #fff; color: #000; font-size: 10.5pt; }
  main { max-width: none; padding: 0; }
  .chart svg { width: 500px; }
  .wide { display: block; }
  .phone { display: none; }
}
`;
