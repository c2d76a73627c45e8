#include "report/html.hpp"

namespace pullproof::report {

// A sheet of paper: one column of text, hairlines, no boxes but the verdicts. Contrast of every text to its ground is
// at least 4.5 to 1 in both schemes.
std::string_view html_style() {
  return R"css(:root {
  --ink: #1d1c19; --faint: #5d594f; --line: #cfc9bb; --paper: #fdfcf8; --desk: #eeebe2; --link: #1b4b72;
  --good: #1f5c38; --good-ground: #e9f3ea; --bad: #93201a; --bad-ground: #fbeae6; --warn: #6b4700; --warn-ground: #faf1da;
}
@media (prefers-color-scheme: dark) {
  :root {
    --ink: #e8e4d9; --faint: #b0aa9b; --line: #45423a; --paper: #1d1c19; --desk: #141311; --link: #9cc7ec;
    --good: #97d6ab; --good-ground: #1d2d22; --bad: #f5aaa1; --bad-ground: #38211e; --warn: #e6c582; --warn-ground: #322a18;
  }
}
* { box-sizing: border-box; }
html { background: var(--desk); color: var(--ink); font: 1rem/1.5 "Source Sans 3", "Segoe UI", "Noto Sans", "DejaVu Sans", sans-serif; -webkit-text-size-adjust: 100%; text-size-adjust: 100%; }
body { max-width: 66rem; margin: 0 auto; padding: 1rem; background: var(--paper); overflow-wrap: anywhere; }
h1, h2, h3 { line-height: 1.25; font-weight: 600; margin: 0; }
h1 { font-size: 1.75rem; }
h2 { font-size: 1.3rem; margin-top: 2.5rem; padding-top: .5rem; border-top: 2px solid var(--ink); }
h3 { font-size: 1.05rem; margin-top: 1.75rem; }
p, ul, ol, dl { margin: .5rem 0; }
ul, ol { padding-left: 1.25rem; }
li { margin: .2rem 0; }
a { color: var(--link); }
code { font: inherit; font-variant-numeric: tabular-nums; }
.kind, .faint, footer { color: var(--faint); }
.kind { margin: 0; }
.good { color: var(--good); }
.bad { color: var(--bad); }
.warn { color: var(--warn); }
.hidden { position: absolute; width: 1px; height: 1px; overflow: hidden; clip-path: inset(50%); white-space: nowrap; }
nav ul { display: flex; flex-wrap: wrap; gap: .15rem 1.1rem; list-style: none; padding: 0; margin: 1rem 0 0; }
nav a { display: inline-block; padding: .2rem 0; }
.entry { margin: .75rem 0; padding: .5rem .9rem .6rem; border-left: .3rem solid currentColor; }
.entry > p { color: var(--ink); margin: .25rem 0; }
.entry > .head { font-weight: 600; }
.entry .label { color: inherit; font-size: .85em; letter-spacing: .06em; margin-right: .4rem; }
.entry.good { background: var(--good-ground); } .entry.good .label { color: var(--good); }
.entry.bad { background: var(--bad-ground); } .entry.bad .label { color: var(--bad); }
.entry.warn { background: var(--warn-ground); } .entry.warn .label { color: var(--warn); }
.entry.lead .head { font-size: 1.15rem; font-weight: 400; }
.entry.lead .label { font-size: 1.35em; }
dl > div { display: grid; grid-template-columns: minmax(7rem, 2fr) 3fr; gap: 0 1rem; padding: .3rem 0; border-bottom: 1px solid var(--line); }
dt { color: var(--faint); }
dd { margin: 0; }
dd.blank { align-self: end; min-height: 1.5rem; border-bottom: 1px dotted var(--ink); }
table { width: 100%; border-collapse: collapse; margin: .75rem 0 1.25rem; font-size: .94rem; }
caption { text-align: left; font-weight: 600; padding: .25rem 0; }
th, td { text-align: left; vertical-align: top; padding: .35rem .75rem .35rem 0; border-bottom: 1px solid var(--line); font-variant-numeric: tabular-nums; min-width: 4.5rem; }
th { font-weight: 400; }
tbody th { min-width: 9rem; }
thead th { color: var(--faint); border-bottom: 1px solid var(--ink); vertical-align: bottom; }
.end { text-align: right; }
th.end, td.end { padding-right: 1.5rem; }
td.blank, th.blank { background: linear-gradient(to right, var(--ink) 1px, transparent 1px) left calc(100% - .4rem) / 4px 1px repeat-x; min-width: 6rem; }
details { border-bottom: 1px solid var(--line); }
summary { padding: .45rem 0; cursor: pointer; }
details > div { padding: 0 0 .75rem 1.1rem; }
details caption { position: absolute; width: 1px; height: 1px; overflow: hidden; clip-path: inset(50%); }
figure { margin: 1rem 0; break-inside: avoid; }
figure svg { display: block; max-width: 100%; height: auto; }
figcaption { color: var(--faint); font-size: .94rem; max-width: 21rem; }
.figures { display: flex; flex-wrap: wrap; gap: 0 2.5rem; align-items: flex-start; --draw-ink: var(--ink); --draw-faint: var(--faint); --draw-paper: var(--paper); }
.signature { margin: 1.25rem 0; break-inside: avoid; }
.signature .who { font-weight: 600; margin: 0; }
.signature ul { display: flex; flex-wrap: wrap; gap: 0 1.5rem; list-style: none; padding: 0; margin: 0; }
.signature li { flex: 1 1 12rem; margin: 2.4rem 0 0; border-top: 1px solid var(--ink); color: var(--faint); font-size: .88rem; }
footer { margin-top: 2rem; font-size: .88rem; }
@media screen and (min-width: 50rem) {
  body { margin: 1.5rem auto; padding: 2.5rem 3.5rem; box-shadow: 0 0 0 1px var(--line); }
  dl { display: grid; grid-template-columns: 1fr 1fr; gap: 0 2.5rem; }
}
@media screen and (max-width: 43rem) {
  table, caption, tbody, tr, th, td { display: block; }
  thead { position: absolute; width: 1px; height: 1px; overflow: hidden; clip-path: inset(50%); }
  tr { padding: .5rem 0; border-bottom: 1px solid var(--line); }
  tbody th, th, td { border: 0; padding: .1rem 0; min-width: 0; }
  th.end, td.end { text-align: left; padding-right: 0; }
  tbody th { font-weight: 600; }
  td[data-head]::before { content: attr(data-head) ": "; color: var(--faint); }
  td.none { display: none; }
  td.blank { background-position: left 0 bottom .35rem; }
}
@media print {
  :root {
    --ink: #000; --faint: #444; --line: #aaa; --paper: #fff; --desk: #fff; --link: #000;
    --good: #143f26; --good-ground: #fff; --bad: #6e1712; --bad-ground: #fff; --warn: #4d3300; --warn-ground: #fff;
  }
  html { font-size: 9.5pt; background: none; }
  body { max-width: none; padding: 0; margin: 0; background: none; }
  nav { display: none; }
  a { text-decoration: none; }
  h2 { margin-top: 1.5rem; }
  h1, h2, h3, h3 + p, caption, summary { break-after: avoid; }
  p, li { orphans: 3; widows: 3; }
  tr, .entry, dl > div { break-inside: avoid; }
  thead { display: table-header-group; }
  dl { columns: 2; column-gap: 2rem; }
  details::details-content { content-visibility: visible; display: block; block-size: auto; }
  summary { list-style: none; font-weight: 600; }
}
)css";
}

}  // namespace pullproof::report
