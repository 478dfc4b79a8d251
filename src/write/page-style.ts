import { createHash } from 'node:crypto';
import { inkDeclarations } from '../draw/palette.ts';

/**
 * The one style sheet of every page. The pages are laid out like a ruled log: a margin with the
 * question, a double rule, and the entry beside it; on a phone the margin folds up above the entry.
 */
export const PAGE_STYLE = [
  `:root{color-scheme:light dark;${inkDeclarations('light')}}`,
  `@media screen and (prefers-color-scheme:dark){:root{${inkDeclarations('dark')}}}`,
  `
*{box-sizing:border-box}
html{font:106.25%/1.55 system-ui,-apple-system,"Segoe UI",Roboto,"Helvetica Neue","Noto Sans",Arial,sans-serif;-webkit-text-size-adjust:100%;text-size-adjust:100%}
body{margin:0;background:var(--paper);color:var(--ink);overflow-wrap:anywhere}
a{color:var(--first);text-underline-offset:.2em}
:focus-visible{outline:3px solid var(--second);outline-offset:2px}
.skip{position:absolute;left:-100vw;padding:.6rem 1rem;background:var(--paper)}
.skip:focus{left:.5rem;top:.5rem;z-index:1}
.sheet{max-width:62rem;margin:0 auto;padding:0 1rem}
.masthead{background:var(--wash);border-bottom:4px double var(--muted)}
.masthead .sheet{padding-top:1.1rem}
.season{margin:0;font-weight:700}
.season span{font-weight:400;color:var(--muted)}
h1{font-size:1.9rem;line-height:1.15;margin:.15rem 0 .6rem;letter-spacing:-.01em}
nav ul{display:flex;flex-wrap:wrap;gap:0 1.1rem;list-style:none;margin:0;padding:0}
nav a{display:block;padding:.6rem 0 .45rem;min-height:44px;color:var(--ink);text-decoration:none;border-bottom:4px solid transparent}
nav a:hover{text-decoration:underline}
nav a[aria-current]{font-weight:700;border-bottom-color:var(--first)}
.entry{padding:1.8rem 0 2rem;border-bottom:1px solid var(--line)}
.entry:last-of-type{border-bottom:0}
h2{font-size:1rem;line-height:1.35;margin:0 0 .35rem;color:var(--muted);font-weight:600}
h2::before{content:"";display:block;width:2.2rem;border-top:4px solid var(--first);margin-bottom:.55rem}
h3{font-size:1rem;margin:1.6rem 0 .4rem}
p,ul,ol,dl,pre{margin:.6rem 0}
.answer{font-size:1.32rem;line-height:1.34;font-weight:600;margin:0 0 .3rem;text-wrap:pretty}
.whole{white-space:nowrap}
.aside{margin:.4rem 0;max-width:40rem}
figure{margin:1.2rem 0 .6rem}
figcaption{font-size:.88rem;color:var(--muted);margin-top:.5rem;max-width:40rem}
svg{display:block;width:100%;height:auto;font-family:inherit;font-variant-numeric:tabular-nums}
.narrow svg{max-width:30rem}
.wide{display:none}
.wide svg{max-width:680px}
details{margin:.3rem 0}
summary{cursor:pointer;min-height:44px;padding:.6rem 0;color:var(--first);width:fit-content}
.scroll{overflow-x:auto;max-width:100%}
table{border-collapse:collapse;font-size:.92rem;font-variant-numeric:tabular-nums;min-width:min(100%,30rem)}
caption{text-align:left;color:var(--muted);padding:0 0 .5rem;font-size:.88rem}
th,td{text-align:left;vertical-align:top;padding:.38rem 1rem .38rem 0;border-bottom:1px solid var(--line);overflow-wrap:break-word}
th[scope=row],td.long{min-width:7rem;max-width:26rem;overflow-wrap:anywhere}
thead th{vertical-align:bottom;font-weight:600;border-bottom:2px solid var(--muted)}
tbody th{font-weight:600}
.number{text-align:right;white-space:nowrap}
thead .number{white-space:normal}
.thin th,.thin td{color:var(--thin);font-weight:400}
.shaded td,.shaded .number{padding:.38rem .6rem}
.shade1{background:color-mix(in srgb,var(--first) 6%,transparent)}
.shade2{background:color-mix(in srgb,var(--first) 13%,transparent)}
.shade3{background:color-mix(in srgb,var(--first) 20%,transparent)}
.shade4{background:color-mix(in srgb,var(--first) 27%,transparent)}
.shade5{background:color-mix(in srgb,var(--first) 34%,transparent)}
.how{font-size:.88rem;color:var(--muted);margin:.5rem 0 0;max-width:40rem}
.prose{max-width:40rem}
div>dt{border-top:1px solid var(--line);padding-top:.6rem}
.answers dd{max-width:40rem}
.verdict{display:inline-block;font-weight:400;font-size:.88rem;padding:0 .5rem;margin-left:.3rem;border:1px solid var(--muted);border-radius:1rem}
.clear,.alike{border:2px solid var(--first);font-weight:600}
.thin.verdict{border-style:dashed;color:var(--thin)}
dt{font-weight:600;margin-top:.8rem}
dd{margin:.1rem 0 0}
pre,code{font-family:ui-monospace,"SF Mono",Consolas,"DejaVu Sans Mono",monospace;font-size:.88em}
pre{white-space:pre-wrap;background:var(--wash);padding:.6rem .8rem}
.cautions{background:var(--wash);border-top:4px double var(--muted);margin-top:1rem;padding:1.2rem 0 2.5rem;font-size:.92rem}
.cautions h2{color:var(--ink)}
.cautions li{margin:.4rem 0;max-width:46rem}
@media (max-width:45.99rem){
.wordy,.wordy tbody,.wordy tr,.wordy th,.wordy td,.wordy caption{display:block;width:auto;max-width:none}
.wordy thead{display:block;position:absolute;width:1px;height:1px;overflow:hidden;clip-path:inset(50%)}
.wordy tr{border-bottom:1px solid var(--line);padding:.5rem 0}
.wordy tr>*{border:0;padding:.1rem 0;text-align:left;white-space:normal}
.wordy td:empty{display:none}
.wordy td::before{content:attr(data-head) ": ";color:var(--muted)}
}
@media (min-width:46rem){.narrow{display:none}.wide{display:block}}
@media (min-width:64rem){
.entry{display:grid;grid-template-columns:12.5rem minmax(0,1fr);border-bottom:0;padding:0}
.entry>h2{padding:1.9rem 1.4rem 1.9rem 0;margin:0;border-right:4px double var(--line)}
.entry>.body{padding:1.8rem 0 2.2rem 1.6rem;border-bottom:1px solid var(--line)}
.entry:last-of-type>.body{border-bottom:0}
}
@page{margin:14mm}
@media print{
html{font-size:10.5pt}
.masthead,.cautions{background:none}
nav,.skip,summary{display:none}
.narrow{display:none}.wide{display:block}
.entry,figure,table,li{break-inside:avoid}
.entry{display:block;border-bottom:1px solid var(--line);padding:5mm 0}
.entry>h2,.entry>.body{padding:0;border:0}
a{color:inherit;text-decoration:none}
:root:has(.dock){font-size:9.5pt}
.dock{display:grid;grid-template-columns:1fr 1fr;gap:0 8mm}
.dock .entry{padding:2mm 0}
.dock table{min-width:100%}
.dock .scroll{overflow:visible}
.dock ul{padding-left:1.1rem}
.dock p,.dock ul{margin:.3rem 0}
.dock th,.dock td{padding:.12rem .8rem .12rem 0}
:root:has(.dock) .cautions{padding:1mm 0 0;font-size:8.5pt}
}`.trim(),
  `@media print{:root{color-scheme:light;${inkDeclarations('print')}}}`,
].join('\n');

/** The policy that a page carries: its own style sheet by its hash, and nothing else from anywhere. */
export const PAGE_POLICY = [
  "default-src 'none'",
  `style-src 'sha256-${createHash('sha256').update(PAGE_STYLE, 'utf8').digest('base64')}'`,
  'img-src data:',
  "base-uri 'none'",
  "form-action 'none'",
].join('; ');
