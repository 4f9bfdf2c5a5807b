import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { escapeMarkup } from '../base/markup.ts';
import { drawingToSvg } from './drawing-svg.ts';
import type { Block, Report } from './report.ts';

const require = createRequire(import.meta.url);

/** One self-contained HTML file: style, font and drawings are inside, no script, no link. */
export function reportToHtml(report: Report): string {
  return `<!doctype html>
<html lang="${report.language}">
<head>
<meta charset="utf-8">
<meta name="viewport" content="width=device-width, initial-scale=1">
<meta http-equiv="Content-Security-Policy" content="default-src 'none'; style-src 'unsafe-inline'; font-src data:">
<title>${escapeMarkup(report.title)}</title>
<style>${fontFace(400)}${fontFace(700)}${style}</style>
</head>
<body>
<header><h1 dir="auto">${escapeMarkup(report.title)}</h1><p dir="auto">${escapeMarkup(report.subtitle)}</p></header>
<main>
${bodyOf(report.blocks)}
</main>
<footer>${escapeMarkup(report.footer)}</footer>
</body>
</html>
`;
}

/**
 * The part after a page break is for a reader who checks: each of its headings can be unfolded, and all of it is
 * printed on paper.
 */
function bodyOf(blocks: readonly Block[]): string {
  const end = blocks.findIndex(({ kind }) => kind === 'pageBreak');
  if (end < 0) return blocks.map(blockToHtml).join('\n');
  const open = blocks.slice(0, end + 1);
  const sections: { title: string; blocks: Block[] }[] = [];
  const isToSign = ({ kind }: Block) => kind === 'signature';
  for (const block of blocks.slice(end + 1).filter((each) => !isToSign(each))) {
    if (block.kind === 'heading') sections.push({ title: block.text, blocks: [] });
    else (sections.at(-1)?.blocks ?? open).push(block);
  }
  const folded = sections.map(
    ({ title, blocks: inside }) =>
      `<details><summary><h2>${escapeMarkup(title)}</h2></summary>\n${inside.map(blockToHtml).join('\n')}\n</details>`,
  );
  return [...open.map(blockToHtml), ...folded, ...blocks.filter(isToSign).map(blockToHtml)].join('\n');
}

function blockToHtml(block: Block): string {
  switch (block.kind) {
    case 'heading':
      return `<h2>${escapeMarkup(block.text)}</h2>`;
    case 'notice':
      return `<p class="notice">${escapeMarkup(block.text)}</p>`;
    case 'verdict':
      return `<p class="verdict">${escapeMarkup(block.text)}</p>`;
    case 'text':
      return `<p dir="auto">${escapeMarkup(block.text)}</p>`;
    case 'list':
      return `<ul>${listItems(block.items)}</ul>`;
    case 'caution':
      return `<ul class="caution">${listItems(block.items)}</ul>`;
    case 'figure':
      return `<figure><div class="wide">${drawingToSvg(block.drawings[0])}</div><div class="narrow">${drawingToSvg(block.narrow)}</div><figcaption>${escapeMarkup(block.caption)}</figcaption></figure>`;
    case 'table': {
      const align = (column: number) => (block.columns[column]?.align === 'right' ? ' class="right"' : '');
      const head = block.columns
        .map(({ title }, column) => `<th scope="col"${align(column)} dir="auto">${escapeMarkup(title)}</th>`)
        .join('');
      // On a phone every row is a block, and each of its cells is next to the title of its column.
      const cell = (text: string, column: number) =>
        `<td${align(column)} data-title="${escapeMarkup(block.columns[column]?.title ?? '')}" dir="auto">${escapeMarkup(text)}</td>`;
      const rows = block.rows.map((row) => `<tr>${row.map(cell).join('')}</tr>`).join('\n');
      const hasHead = block.columns.some(({ title }) => title !== '');
      const table = hasHead ? `<table><thead><tr>${head}</tr></thead>` : '<table class="stated">';
      return `<div class="table">${table}<tbody>\n${rows}\n</tbody></table></div>`;
    }
    case 'signature':
      return `<div class="signature">${block.labels.map((label) => `<p>${escapeMarkup(label)}</p>`).join('')}</div>`;
    case 'pageBreak':
      return '<hr>';
  }
}

function listItems(items: readonly string[]): string {
  return items.map((item) => `<li dir="auto">${escapeMarkup(item)}</li>`).join('');
}

function fontFace(weight: 400 | 700): string {
  const file = require.resolve(
    `@fontsource/atkinson-hyperlegible-next/files/atkinson-hyperlegible-next-latin-${weight}-normal.woff2`,
  );
  const data = readFileSync(file).toString('base64');
  return `@font-face{font-family:'Atkinson Hyperlegible Next';font-weight:${weight};src:url(data:font/woff2;base64,${data}) format('woff2')}`;
}

const style = `
:root{color-scheme:light dark;--ink:#1b1c1f;--quiet:#5d5f66;--background:#fbf8f0;--rule:#c9c5b4}
@media (prefers-color-scheme:dark){:root{--ink:#ece6d8;--quiet:#a8a293;--background:#16150f;--rule:#45423a}figure svg{background:#fbf8f0}}
body{margin:0 auto;max-width:52rem;padding:1.5rem 1rem 3rem;background:var(--background);color:var(--ink);font:1rem/1.5 'Atkinson Hyperlegible Next',sans-serif;overflow-wrap:anywhere;font-variant-numeric:tabular-nums}
h1{font-size:1.8rem;line-height:1.2;margin:0}header p{color:var(--quiet);margin:.3rem 0 0}header{border-bottom:2px solid;padding-bottom:.8rem}
h2{font-size:1.15rem;margin:2rem 0 .5rem}.verdict{font-size:1.5rem;line-height:1.35}.notice{border:2px solid;padding:.5rem .7rem;font-weight:700;font-size:1.15rem}.signature{display:flex;gap:2rem;margin-top:4rem}.signature p{flex:1;margin:0;border-top:1px solid;padding-top:.2rem;color:var(--quiet);font-size:.9rem}
summary{cursor:pointer;padding:.4rem 0}summary h2{display:inline;margin:0}details{border-bottom:1px solid var(--rule)}details[open]{padding-bottom:1rem}
.table{overflow-x:auto}table{border-collapse:collapse;width:100%}th,td{padding:.3rem .6rem .3rem 0;text-align:start;vertical-align:top;border-bottom:1px solid var(--rule)}th{font-weight:400;color:var(--quiet);overflow-wrap:break-word}td{white-space:pre-line}.right{text-align:end}
figure{margin:1rem 0}.narrow{display:none}figure svg{width:100%;height:auto}figcaption,footer{color:var(--quiet);font-size:.9rem}
.caution{border-inline-start:4px solid #b23a10;padding-inline-start:1.6rem}hr{border:0;border-top:1px solid var(--rule);margin:2rem 0}footer{border-top:1px solid var(--rule);margin-top:3rem;padding-top:.6rem;overflow-wrap:anywhere}
@media screen and (max-width:40rem){.wide{display:none}.narrow{display:block}thead{display:none}table,tbody,tr,td{display:block}tr{padding:.35rem 0;border-bottom:1px solid var(--rule)}td{display:flex;gap:.6rem;justify-content:space-between;padding:.1rem 0;border:0;text-align:end}td:empty{display:none}td::before{content:attr(data-title);flex:0 1 45%;color:var(--quiet);text-align:start}td:first-child{font-weight:700;text-align:start}td:first-child::before{content:none}.stated tr{display:flex;gap:1rem;justify-content:space-between}.stated td:first-child{flex:0 0 45%;font-weight:400;color:var(--quiet)}.stated td::before{content:none}}
@media print{body{background:none;color:#000;max-width:none}hr{break-after:page;border:0}details::details-content{content-visibility:visible;block-size:auto}summary{list-style:none}details{border:0}}
`;
