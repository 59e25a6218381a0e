/**
 * The style sheet of the page; A4 in print, or letter (see page.ts). Light or dark follows the system, or the attribute `data-paper` of the root
 * element.
 */

const DARK =
  '--paper:#1f1d1a;--ink:#ece5d8;--soft:#b9ae9c;--line:#4a4439;--band:#2a2722;--warn:#ffb3aa;--link:#b7cc97';

export const STYLE = `
:root{color-scheme:light dark;--paper:#fbf8f1;--ink:#2b2620;--soft:#5f564a;--line:#d8cdb9;--band:#f2ebdc;--warn:#8a1b18;--link:#3d5222;
--serif:"Iowan Old Style","Palatino Linotype",Palatino,"Book Antiqua",Georgia,serif}
@media screen and (prefers-color-scheme:dark){:root:not([data-paper]){${DARK}}}
@media screen{:root[data-paper=dark]{color-scheme:dark;${DARK}}:root[data-paper=light]{color-scheme:light}}
*{box-sizing:border-box}
html{background:var(--paper);color:var(--ink);font:1rem/1.55 ui-sans-serif,system-ui,"Segoe UI",sans-serif;-webkit-text-size-adjust:100%}
body{font:inherit;color:inherit;background:none;margin:0 auto;max-width:60rem;padding:1.25rem;overflow-wrap:anywhere}
h1,h2,h3,h4,.lead{font-family:var(--serif);line-height:1.25;text-wrap:balance}
h1{font-size:2.1rem;font-weight:500;margin:1.5rem 0 .25rem}
h2{font-size:1.6rem;font-weight:500;margin:3.5rem 0 .75rem;padding-top:1.25rem;border-top:3px double var(--line)}main>section:first-of-type>h2{margin-top:1.5rem}
h3{font-size:1.25rem;margin:2.25rem 0 .35rem}
h4{font-size:1rem;font-style:italic;font-weight:600;margin:1.25rem 0 .25rem}
.lead{font-size:1.12rem;margin:.25rem 0 1rem;text-wrap:wrap}
p{margin:.35rem 0 .6rem}ul{margin:.35rem 0 .6rem;padding-left:1.2rem}li{margin:.2rem 0}
a{color:var(--link)}a:focus-visible,button:focus-visible,input:focus-visible,.scroll:focus-visible{outline:3px solid var(--link);outline-offset:2px}
nav ul{display:flex;flex-wrap:wrap;gap:.25rem 1.25rem;list-style:none;padding:0}nav a{display:inline-block;padding:.4rem 0}
.size,.quiet,figcaption{color:var(--soft);font-size:.92rem}
.skip{position:absolute;left:-100vw}.skip:focus{position:static}
.hidden{position:absolute;width:1px;height:1px;overflow:hidden;clip-path:inset(50%);white-space:nowrap}
.pictures{display:flex;flex-wrap:wrap;align-items:flex-start;gap:.75rem;margin:.75rem 0}
img{max-width:100%;height:auto;border:1px solid var(--line);border-radius:6px}
.pictures img{flex:0 1 18.5rem;min-width:0}.dropzone img{width:100%;max-width:20rem}figure{margin:.75rem 0}.plan img{width:100%;min-width:36rem;max-width:none}.photo img{max-height:26rem}
.series{clear:both}.years td ul{list-style:none;margin:0;padding:0}.years td{max-width:none}.years td li:first-child{margin-top:0}.beside{display:grid;grid-template-columns:repeat(auto-fit,minmax(min(100%,9.5rem),1fr));gap:.75rem}.beside figure{margin:.25rem 0;max-width:20rem}.beside img{display:block;width:100%}
article{border-top:1px solid var(--line);margin-top:1.75rem}
dl{margin:.25rem 0 .6rem}dl div{display:grid;grid-template-columns:minmax(6rem,9.5rem) 1fr;gap:.1rem .8rem;padding:.2rem 0;border-bottom:1px dotted var(--line)}
dt{color:var(--soft);font-size:.92rem}dd{margin:0}
.advice dl{font-size:.95rem}
.halves{display:grid;grid-template-columns:repeat(auto-fit,minmax(min(100%,22rem),1fr));gap:0 2rem}
.caution,.stop{background:var(--band);border-left:4px solid var(--line);padding:.6rem .9rem;margin:1rem 0}.stop{border-color:var(--warn)}
.caution h3,.caution h4,.stop h3,.stop h4{margin-top:.1rem}
.group h3 small{font:italic .85rem ui-sans-serif,system-ui,sans-serif;color:var(--soft)}.group th .quiet{display:block;font-weight:400}.group td ul{list-style:none;margin:0;padding:0}
.signed .line{display:grid;grid-template-columns:2fr 2fr 1fr;gap:1rem;margin-top:2.2rem;color:var(--soft);font-size:.9rem}.signed .line span{border-top:1px solid var(--ink);padding-top:.2rem}
strong{font-weight:650}.stop .error,.stop .warning{color:var(--warn)}
.answer{margin-right:1rem;white-space:nowrap}.answer input{margin-right:.35rem}.over{display:none}.order small{display:block;color:var(--soft);font-size:.85em;line-height:1.3}.checks{list-style:none;padding:0}.checks li{display:flex;gap:.6rem;align-items:flex-start;padding:.2rem 0}
.checks input{flex:none;width:1.2rem;height:1.2rem;margin:.15rem 0 0;accent-color:var(--link)}.checks label{flex:1}.initials{flex:none;width:5.5rem;align-self:flex-end;border-bottom:1px solid var(--soft)}
.scroll{overflow-x:auto;margin:.5rem 0 1rem}
@media screen and (max-width:44rem){.sortable:has(th:nth-child(6)){min-width:46rem}.late{display:block}.stacked,.stacked tbody,.stacked tr,.stacked th,.stacked td{display:block}.stacked thead{position:absolute;width:1px;height:1px;overflow:hidden;clip-path:inset(50%)}
.stacked tr{padding:.5rem 0;border-bottom:1px solid var(--line)}.stacked tbody th,.stacked tbody td{border:0;padding:.15rem 0;max-width:none}.stacked tbody td{display:grid;grid-template-columns:7.5rem 1fr;gap:.8rem}.stacked td::before{content:attr(data-head);color:var(--soft)}.stacked tbody td:empty{display:none}.answer{display:inline-block}.years .stacked tbody td{grid-template-columns:1fr}.years .stacked td::before{content:none}dl div{grid-template-columns:6.5rem 1fr}}
@media (min-width:44rem){.pictures:has(>:only-child){float:right;margin:.25rem 0 1rem 2rem}.pictures:has(>:only-child) img{flex-basis:17rem}.tree::after{content:"";display:block;clear:both}.tree .stop,.tree .caution{overflow:hidden}}
@media screen and (min-width:62rem){.filtered{margin-inline:calc((100% - min(96vw,88rem))/2)}}
table{border-collapse:collapse;width:100%;font-size:.9rem;line-height:1.4}
th,td{text-align:left;vertical-align:top;padding:.4rem .8rem .4rem 0;border-bottom:1px solid var(--line);overflow-wrap:break-word;min-width:4.5rem;max-width:26rem}
.sortable th,.sortable td{padding-right:.6rem;min-width:3.6rem;font-size:.86rem}.day,time{white-space:nowrap}.sortable tbody th{white-space:nowrap}@media screen{.sortable th:first-child{position:sticky;left:0;background:var(--paper)}}thead th{font-family:var(--serif);font-style:italic;font-weight:600;vertical-align:bottom}tbody th{font-weight:600}
thead button{font:inherit;color:inherit;background:none;border:0;padding:.25rem 0;cursor:pointer;text-align:left;text-decoration:underline dotted;text-underline-offset:.2em}
[aria-sort=ascending] button::after{content:" ↑"}[aria-sort=descending] button::after{content:" ↓"}
.filter{display:flex;flex-wrap:wrap;gap:.5rem 1rem;align-items:baseline}
.maps{display:grid;grid-template-columns:repeat(auto-fill,minmax(min(100%,19rem),1fr));gap:.75rem 1.25rem;margin:.5rem 0}.maps figure{margin:0}.maps .map{display:block;width:100%;border:1px solid var(--line);border-radius:6px}
.map .ink{fill:none;stroke:var(--ink)}.map .solid{fill:var(--ink)}.map .text{fill:var(--ink);font:11px ui-sans-serif,system-ui,sans-serif}.map .mark{fill:var(--warn);stroke:var(--warn)}.map .wood{fill:var(--line);stroke:var(--ink)}.map .void{fill:var(--paper);stroke:var(--ink)}
.map .reach{fill:transparent}.spot:hover .reach,.spot:focus .reach,.spot.here .reach{fill:none;stroke:var(--link);stroke-width:2}.spot.here .reach{stroke-width:3}.spot.out{display:none}tr:target{background:var(--band)}
.key{display:flex;flex-wrap:wrap;gap:.2rem 1.2rem;font-size:.9rem}.key svg{vertical-align:-.2rem}
.filter select{font:inherit;color:inherit;background:var(--band);border:1px solid var(--soft);border-radius:4px;padding:.25rem}
.filter input{font:inherit;color:inherit;background:var(--band);border:1px solid var(--soft);border-radius:4px;padding:.3rem .5rem;max-width:100%}
footer{margin-top:3rem;border-top:1px solid var(--line);color:var(--soft);font-size:.9rem}
@page{size:A4;margin:16mm 15mm 18mm;@top-left{content:var(--running);font:8pt system-ui;color:#5f564a}@bottom-right{content:"Page " counter(page) " of " counter(pages);font:8pt system-ui;color:#5f564a}}@page wide{size:A4 landscape;margin:16mm 15mm 18mm}@page order{margin:11mm 11mm 10mm}
@media print{:root{color-scheme:light}html{font-size:9.5pt;background:none}body{max-width:none;padding:0}
nav,.skip,.filter{display:none}a{color:inherit;text-decoration:none}
h1,h2,h3,h4{break-after:avoid}h2{break-before:page;border-top:0;padding-top:0;margin-top:0}section:first-of-type>h2{break-before:auto;margin-top:1rem}
figure,.pictures,tr,li,.caution,dl div{break-inside:avoid}.size{break-after:avoid}.pictures,tbody tr:first-child{break-before:avoid}.order{page:order;break-before:page;border-top:0;margin-top:0;font-size:9.6pt;line-height:1.27}.crowded{font-size:8.6pt}.crowded:not(:lang(en)){font-size:7.8pt}.order .first{font-size:max(8.6pt,1em)}.order .first dl{columns:2;column-gap:2rem}.back{break-before:page;font-size:10.5pt;line-height:1.35}.back .over{display:block;font-weight:650;margin:0}.back .checks{gap:1.4em}main:has(#crew):not(:has(#office))+footer{page:order}.order h3{font-size:1.35em;margin:0 0 .1em}.order h4{font-size:1.08em;margin:.55em 0 .1em}.order .lead{font-size:1.12em;margin:0 0 .3em}.order dt,.order .quiet{font-size:1em;margin:.1em 0}.order dl{margin:.1em 0}.order dl div{padding:.07em 0;grid-template-columns:8em 1fr;gap:0 .6em}.order .stop{padding:.3em .8em;margin:.35em 0;columns:2;column-gap:1.6em}.order .stop:not(:has(li+li)){columns:auto}.order .stop p,.order li{margin:.1em 0}.order .stop h4{margin:0}.order ul{margin:.1em 0 .2em}.order small{font-size:.84em;line-height:1.2}.signed{break-inside:avoid}.quote,.accept{break-before:page}.order .signed .line{margin-top:1.7em;font-size:.92em}.order .checks li{padding:.06em 0;gap:.4em;break-inside:avoid}.order .checks input{width:1.05em;height:1.05em;margin:.1em 0 0}.order .initials{width:6em}.order h3,.halves>:first-child h4{margin-top:0}
.years{break-before:page;border-top:0;margin-top:0}.years:first-of-type{break-before:auto}.beside{grid-template-columns:repeat(auto-fit,minmax(55mm,1fr))}.beside img{max-height:80mm;object-fit:contain}.series>h4{break-after:avoid}.beside figure{break-inside:avoid}.order:first-of-type{break-before:auto}
#office,main:has(#office)+footer{page:wide}.intro{break-after:avoid}.checks{columns:2;column-gap:2rem}.scroll{overflow:visible}table{font-size:8.6pt}.sortable{font-size:7.6pt}.sortable th,.sortable td{font-size:inherit}th,td,.sortable th,.sortable td{min-width:0;padding-right:.45rem}thead{display:table-header-group}thead button{display:contents}
.pictures,.pictures:has(>:only-child){display:block;float:right;width:38%;margin:.25rem 0 1rem 1.5rem;break-inside:auto;break-before:auto}.pictures img{display:block;max-width:100%;margin-bottom:2mm;break-inside:avoid}.tree .scroll{display:flow-root}.dropzone img{max-width:54mm}.plan img{max-height:165mm;width:auto;min-width:0;max-width:100%}.photo img{max-height:70mm}.halves{display:block;columns:2;column-gap:2rem}.halves,.order .checks{break-inside:avoid}
.tree{font-size:8.7pt;line-height:1.4;margin-top:1rem}.tree h3{margin-top:1rem}.tree h4{margin-top:.6rem}.tree dl div{padding:.08rem 0}.tree li{margin:.08rem 0}.tree p,.tree ul,.tree dl{margin:.15rem 0 .35rem}.tree .scroll{margin:.2rem 0 .5rem}.tree th,.tree td{padding-top:.2rem;padding-bottom:.2rem}
.group th,.group td{padding-top:.25rem;padding-bottom:.25rem}.group td:nth-child(2){width:27%}.group td:nth-child(3){width:9%}.group td:nth-child(4){width:30%}.group td:nth-child(5){width:18%}
dl div{grid-template-columns:minmax(5rem,7.5rem) 1fr}}
`;
