/** The look of all pages, on screen in light and dark and on paper in black alone. */
export const STYLE = `
:root {
  color-scheme: light dark;
  --paper: light-dark(#f8f4ea, #1a1815);
  --raised: light-dark(#fffdf7, #22201c);
  --ink: light-dark(#1e1b16, #ece5d8);
  --faint: light-dark(#5f584c, #b0a796);
  --rule: light-dark(#d8d0bf, #3d3932);
  --act: light-dark(#9c3d10, #f3a06f);
  --act-ink: light-dark(#fffdf7, #1a1815);
  --one: light-dark(#3f6175, #8fb3c7);
  --two: light-dark(#cfc4a8, #5a5342);
  --bad: light-dark(#8f1d1d, #ffa39a);
}
* { box-sizing: border-box; }
html { background: var(--paper); color: var(--ink); font: 15px/1.45 system-ui, 'DejaVu Sans', sans-serif; }
body { margin: 0; font-variant-numeric: tabular-nums lining-nums; }
a { color: var(--act); text-underline-offset: 0.15em; }
:focus-visible { outline: 2px solid var(--act); outline-offset: 2px; }
.skip { position: absolute; left: -99rem; }
.skip:focus { left: 1rem; top: 0.5rem; background: var(--paper); padding: 0.3rem; }
.waiting { padding: 0.4rem 1.4rem; }
.waiting:has(~ main) { position: absolute; left: -99rem; }
.waiting:has(~ main[aria-busy='true']) { position: fixed; left: auto; right: 1rem; bottom: 1rem; z-index: 3; margin: 0; background: var(--paper); border: 1px solid var(--ink); }
.top { display: flex; flex-wrap: wrap; gap: 0.2rem 1.6rem; align-items: baseline; padding: 0.7rem 1.4rem; border-bottom: 1px solid var(--rule); }
.top .name { font-weight: 700; color: inherit; text-decoration: none; }
.top ul { display: flex; flex-wrap: wrap; gap: 0.2rem 1.1rem; list-style: none; margin: 0; padding: 0; }
.top nav a { color: inherit; text-decoration: none; padding: 0.25rem 0; display: inline-block; }
.top nav a[aria-current] { border-bottom: 3px solid var(--act); font-weight: 600; }
.top form { margin-left: auto; display: flex; gap: 0.4rem; align-items: baseline; min-width: 0; max-width: 100%; }
.top form select { flex: 0 1 auto; min-width: 0; }
main { max-width: 1320px; margin: 0 auto; padding: 0.4rem 1.4rem 2rem; }
footer { max-width: 1320px; margin: 0 auto; padding: 0.6rem 1.4rem 2rem; color: var(--faint); border-top: 1px solid var(--rule); font-size: 0.87rem; }
h1 { font-size: 1.05rem; font-weight: 600; margin: 0.9rem 0 0.2rem; }
h2 { font-size: 1.02rem; font-weight: 650; margin: 1.7rem 0 0.5rem; max-width: 62rem; text-wrap: pretty; }
h3 { font-size: 0.93rem; margin: 1.1rem 0 0.3rem; }
p { margin: 0.3rem 0; max-width: 52rem; }
.note, .unit, .what { color: var(--faint); }
.note { font-size: 0.83rem; max-width: 64rem; }
.unit { font-weight: 400; white-space: nowrap; }
.answer .margin { margin: 0.4rem 0 0; }
.answer strong { display: block; font-size: clamp(1.9rem, 6vw, 2.9rem); line-height: 1.1; font-weight: 650; letter-spacing: -0.01em; }
.answer p { max-width: none; }
.answer .lead { font-size: 1.25rem; font-weight: 600; max-width: 58rem; line-height: 1.3; text-wrap: pretty; }
.sentences { padding-left: 1.1rem; max-width: 62rem; margin: 0.3rem 0; }
.sentences li { margin: 0.22rem 0; text-wrap: pretty; }
figure { margin: 0.6rem 0 0; }
figcaption { font-weight: 650; font-size: 0.9rem; margin-bottom: -1.4rem; }
.scroll { overflow-x: auto; max-width: 100%; position: relative; }
table { border-collapse: collapse; font-size: 0.87rem; margin: 0.2rem 0 0.9rem; }
caption { text-align: left; font-weight: 600; padding: 0.5rem 0 0.25rem; white-space: nowrap; }
th, td { padding: 0.17rem 0.9rem 0.17rem 0; text-align: left; vertical-align: baseline; border-bottom: 1px solid var(--rule); font-weight: 400; }
thead th { color: var(--faint); vertical-align: bottom; border-bottom: 1px solid var(--ink); font-size: 0.95em; }
thead th .unit { display: block; }
tfoot th, tfoot td { font-weight: 650; border-bottom: 0; }
tfoot tr:first-child > * { border-top: 1px solid var(--ink); }
.figure { text-align: right; white-space: nowrap; }
td.figure:last-child, th.figure:last-child { padding-right: 0.2rem; }
tbody th { min-width: 8rem; }
.tables { columns: 33rem; column-gap: 2.6rem; }
.tables > div { break-inside: avoid; }
.pair { display: grid; grid-template-columns: repeat(auto-fit, minmax(min(100%, 34rem), 1fr)); gap: 0.4rem 1.6rem; align-items: start; }
.pair > * { min-width: 0; }
details { margin: 0.4rem 0; }
summary { cursor: pointer; color: var(--act); }
.cautions { border-left: 3px solid var(--ink); padding-left: 0.9rem; margin-top: 2rem; font-size: 0.9rem; }
.cautions h2 { margin-top: 0; }

.ladder { display: block; width: 100%; min-width: 860px; font-size: 12px; fill: var(--ink); }
.upright { min-width: 0; max-width: 30rem; }
.narrow-only { display: none; }
.ladder .small { font-size: 10.5px; fill: var(--faint); }
.ladder .strong { font-weight: 650; font-size: 12px; }
.ladder .grid { stroke: var(--rule); stroke-width: 0.6; }
.ladder .base { stroke: var(--ink); stroke-width: 1.4; }
.ladder .leader { fill: none; stroke: var(--faint); stroke-width: 0.7; }
.ladder rect { stroke: var(--ink); stroke-width: 0.8; }
.ladder .gate { fill: var(--two); }
.ladder .earned { fill: var(--one); }
.ladder .lost { fill: none; stroke-dasharray: 3 3; }
.ladder .credit { fill: url(#ladder-up); }
.ladder .waste { fill: url(#ladder-down); }
.ladder .hours { fill: none; stroke-width: 0.6; }
.ladder .used { fill: var(--ink); stroke: none; }
.upright .credit { fill: url(#upright-up); }
.upright .waste { fill: url(#upright-down); }
.hatch { fill: none; stroke: var(--ink); stroke-width: 1; }
.key { list-style: none; display: flex; flex-wrap: wrap; gap: 0.2rem 1.4rem; padding: 0; margin: 0.2rem 0 0.6rem; font-size: 0.83rem; color: var(--faint); }
.swatch { display: inline-block; width: 1.5em; height: 0.85em; border: 1px solid var(--ink); vertical-align: -0.05em; margin-right: 0.2em; }
.swatch.gate { background: var(--two); }
.swatch.earned { background: var(--one); }
.swatch.lost { border-style: dashed; }
.swatch.credit { background: repeating-linear-gradient(135deg, var(--ink) 0 1px, transparent 1px 5px); }
.swatch.waste { background: repeating-linear-gradient(45deg, var(--ink) 0 1px, transparent 1px 5px); }
.months { list-style: none; padding: 0; margin: 0; display: grid; grid-template-columns: repeat(auto-fill, minmax(5.6rem, 1fr)); gap: 0.5rem 0.7rem; }
.months .all { grid-column: 1 / -1; }
.months .all a { display: inline-block; }
.months .all .month { display: inline; }
.months a { display: block; color: inherit; text-decoration: none; padding: 0.25rem 0.3rem; border-bottom: 3px solid transparent; }
.months a:hover { border-color: var(--rule); }
.months a[aria-current] { border-color: var(--act); }
.months .month { font-weight: 600; display: block; }
.months .amount { font-size: 0.85rem; white-space: nowrap; }
.small-ladder { min-width: 0; }
.small-ladder rect { stroke-width: 0.5; }

.cutpoint-chart { display: block; width: 100%; min-width: 560px; max-width: 760px; height: auto; font-family: inherit; font-size: 12px; fill: var(--ink); }
.cutpoint-chart > rect[fill='#fff'] { fill: none; }
.cutpoint-chart .title { font-size: 13px; font-weight: 650; }
.cutpoint-chart .note { fill: var(--faint); }
.cutpoint-chart .axis, .cutpoint-chart .zero { stroke: var(--ink); }
.cutpoint-chart .grid { stroke: var(--rule); }
.cutpoint-chart .curve { fill: none; stroke: var(--one); stroke-width: 2; }
.cutpoint-chart .second { stroke-dasharray: 6 3; }
.cutpoint-chart .third { stroke-dasharray: 2 3; }
.cutpoint-chart .mark { fill: var(--paper); stroke: var(--one); stroke-width: 2; }
.cutpoint-chart .bar { stroke: var(--ink); stroke-width: 0.8; }
.cutpoint-chart .guide { stroke: var(--act); stroke-dasharray: 4 3; }
.cutpoint-chart .layer { stroke: var(--ink); stroke-width: 0.7; }
.cutpoint-chart .cut { fill: var(--paper); stroke: var(--ink); }
.cutpoint-chart [fill='#0b4f9c'] { fill: var(--one); }
.cutpoint-chart [fill='#e8eef6'] { fill: var(--two); }
.cutpoint-chart pattern rect { fill: var(--paper); }
.cutpoint-chart pattern path { stroke: var(--one); }
.cutpoint-chart pattern circle { fill: var(--ink); }
.cutpoint-chart g > rect[fill='#fff'] { fill: var(--paper); }

label { font-size: 0.87rem; }
input, select, textarea, button { font: inherit; font-size: 0.9rem; color: inherit; }
input, select, textarea { background: var(--raised); border: 1px solid var(--faint); padding: 0.26rem 0.4rem; border-radius: 2px; max-width: 100%; }
input.number { text-align: right; width: 9rem; }
button, .button { background: var(--act); color: var(--act-ink); border: 1px solid var(--act); padding: 0.3rem 0.8rem; border-radius: 2px; cursor: pointer; text-decoration: none; display: inline-block; font-size: 0.9rem; }
button.quiet, .button.quiet { background: none; color: var(--act); }
button:disabled { opacity: 0.5; cursor: default; }
label.button { position: relative; }
label.button .skip, label.button .skip:focus { left: 0; top: 0; width: 100%; height: 100%; padding: 0; opacity: 0; cursor: pointer; }
label.button:focus-within { outline: 2px solid var(--act); outline-offset: 2px; }
.tabs ul { list-style: none; display: flex; flex-wrap: wrap; gap: 0.2rem 1.2rem; padding: 0; margin: 0.5rem 0; }
.tabs a { color: inherit; text-decoration: none; padding: 0.2rem 0; display: inline-block; }
.tabs a[aria-current] { border-bottom: 3px solid var(--act); font-weight: 600; }
.bar fieldset { flex: 1 1 100%; }
fieldset .bar .field:first-child { width: 15rem; }
.bar { display: flex; flex-wrap: wrap; gap: 0.5rem 0.9rem; align-items: end; margin: 0.5rem 0; }
.field { display: flex; flex-direction: column; gap: 0.1rem; min-width: 0; max-width: 100%; }
.field select { max-width: min(34rem, 100%); }
.field .row { display: flex; gap: 0.4rem; align-items: baseline; }
.field .unit { font-size: 0.85rem; }
fieldset { border: 0; border-top: 1px solid var(--rule); padding: 0.3rem 0 0.4rem; margin: 0.4rem 0 0; min-width: 0; }
legend { font-weight: 600; font-size: 0.9rem; padding-right: 0.6rem; }
.beside { display: grid; grid-template-columns: minmax(17rem, 23rem) minmax(0, 1fr); gap: 1rem 2.6rem; align-items: start; }
.beside .field { margin-top: 0.35rem; }
.beside .field input:not(.number) { width: 100%; }
.beside .field .row { width: 100%; }
.terms { display: grid; grid-template-columns: repeat(2, minmax(0, 1fr)); gap: 0 1rem; align-items: end; }
.terms input.number { width: 5.6rem; flex: none; }
.terms .unit { white-space: normal; line-height: 1.15; }
@media (min-width: 1000px) {
  .try { float: right; max-width: 40rem; margin: 0 0 0.5rem 2rem; }
}
.try { margin-bottom: 0.9rem; }
.short { white-space: nowrap; }
.trial { display: flow-root; border-top: 1px solid var(--rule); border-bottom: 1px solid var(--rule); padding: 0.5rem 0; margin: 0.9rem 0; }
.trial ul { margin: 0.2rem 0; padding-left: 1.1rem; }
.problem { color: var(--bad); font-size: 0.83rem; }
.problems { border-left: 3px solid var(--bad); padding-left: 0.9rem; margin: 0.7rem 0; }
[aria-busy='true'] #result .answer { opacity: 0.5; }
.partial { border-left: 3px double var(--ink); padding-left: 0.9rem; margin: 0.7rem 0; }
[aria-invalid='true'] { border: 2px solid var(--bad); }
[hidden] { display: none !important; }
progress { accent-color: var(--act); width: 100%; max-width: 26rem; }
.list { width: 100%; max-width: 62rem; }
.list td, .list th { padding-top: 0.4rem; padding-bottom: 0.4rem; }

.grid td, .grid th { padding: 0.1rem 0.5rem 0.1rem 0; border-bottom: 0; white-space: nowrap; }
.grid thead th { white-space: normal; }
.grid input { width: 8rem; border-color: var(--rule); }
.grid input.figure { text-align: right; }
.grid input.wide { width: 15rem; }
.grid input.changed { border-left: 4px solid var(--act); }
.grid tbody th { position: sticky; left: 0; background: var(--paper); z-index: 1; min-width: 0; }
table.grid button { border: 0; padding: 0.2rem 0.4rem; font-size: 0.85rem; text-decoration: underline; }
.grid td.computed { color: var(--faint); font-style: italic; text-align: right; }
.grid tr.leaves > td { padding: 0.3rem 0 0.7rem 1rem; white-space: normal; }
.leaves .fields { display: grid; grid-template-columns: repeat(auto-fill, minmax(15rem, 1fr)); gap: 0.25rem 1.2rem; }
.leaves label { display: flex; justify-content: space-between; gap: 0.6rem; align-items: baseline; }
.state { position: sticky; bottom: 0; background: var(--paper); border-top: 1px solid var(--ink); padding: 0.5rem 0; margin-top: 1.2rem; z-index: 2; }
.state p { margin: 0.1rem 0; }

@media screen and (max-width: 620px) {
  .grid input.wide { width: 9.5rem; }
  .wide-only { display: none; }
  .narrow-only { display: block; }
  .cutpoint-chart .title { display: none; }
}
@media (max-width: 820px) {
  .beside { grid-template-columns: minmax(0, 1fr); }
  main, footer, .top { padding-left: 0.9rem; padding-right: 0.9rem; }
  .top form { margin-left: 0; }
}
@media print {
  :root { color-scheme: only light; --paper: #fff; --raised: #fff; --ink: #000; --faint: #000; --rule: #999; --act: #000; --one: #777; --two: #e4e4e4; --bad: #000; }
  @page { size: auto; margin: 14mm 13mm 15mm; }
  html { font-size: 9.6pt; background: none; }
  main { max-width: none; padding: 0; }
  footer { padding: 0.4rem 0 0; }
  .top nav, .top form, .screen, .skip, p.bar, div.bar, form.bar, summary, button, tr.leaves:not(:has(details[open])), .beside fieldset:last-of-type { display: none !important; }
  tfoot { display: table-row-group; }
  .beside { display: block; }
  .terms { grid-template-columns: repeat(4, minmax(0, 1fr)); }
  input, select { border-width: 0 0 1px; border-color: #999; padding: 0; appearance: none; }
  .grid { font-size: 7.4pt; }
  .grid input, .grid input.wide, .grid select { width: auto; field-sizing: content; min-width: 2rem; font-size: inherit; border: 0; }
  .grid td.computed { white-space: normal; min-width: 3rem; }
  .top { padding: 0 0 0.3rem; }
  .scroll { overflow: visible; }
  .ladder { min-width: 0; }
  .cutpoint-chart { min-width: 0; }
  .tables { columns: auto; }
  .pair { display: block; }
  table { font-size: 8.4pt; width: auto; max-width: 100%; }
  th, td { padding-right: 0.5rem; }
  tr, figure, svg, .cautions, .answer, caption { break-inside: avoid; }
  h2, h3, caption, thead { break-after: avoid; }
  a { color: inherit; text-decoration: none; }
  .swatch { print-color-adjust: exact; }
  .ladder rect, .months { print-color-adjust: exact; }
}
`;
