/** The page on which two points of a photograph are set, by mouse or keyboard. */

import { escaped, PAGE_STYLE } from './preview-page.ts';

export interface MeasurePage {
  /** A `data:` URI. */
  readonly source: string;
  /** As the record names it. */
  readonly name: string;
  readonly tree: string;
  readonly defects: readonly string[];
  readonly defect?: string;
  readonly distance?: string;
}

const STYLE = `${PAGE_STYLE}
main{display:grid;gap:.8em;grid-template-columns:minmax(0,1fr) 20em}@media(max-width:45em){main{grid-template-columns:minmax(0,1fr)}}
h1{font-size:1.2em;margin:0;grid-column:1/-1}.stage{overflow:auto;max-height:85vh;border:1px solid var(--vscode-widget-border,currentColor)}
.stage:focus-visible,button:focus-visible,input:focus-visible,select:focus-visible{outline:2px solid var(--vscode-focusBorder,#0060c0);outline-offset:1px}
.picture{position:relative;cursor:crosshair;width:100%}.picture img{display:block;width:100%;height:auto}
svg{position:absolute;inset:0;width:100%;height:100%}line,circle{vector-effect:non-scaling-stroke;fill:none;stroke-width:2}
.halo{stroke:#000;stroke-width:5;opacity:.6}.thing{stroke:#fff}.known{stroke:#ffd23f;stroke-dasharray:6 3}.cross{stroke:#fff}
label,fieldset{display:block;margin:.5em 0}fieldset{border:1px solid var(--vscode-widget-border,currentColor);padding:.3em .6em}fieldset label{margin:.1em 0}
input:not([type]),select{width:100%;box-sizing:border-box;font:inherit;color:var(--vscode-input-foreground,inherit);background:var(--vscode-input-background,inherit);border:1px solid var(--vscode-input-border,currentColor);padding:.2em .4em}
button{font:inherit;padding:.3em .8em;margin:.2em .4em .2em 0;color:var(--vscode-button-foreground,inherit);background:var(--vscode-button-background,transparent);border:1px solid currentColor}
button:disabled{opacity:.5}output{display:block;margin:.6em 0;min-height:6em}output b{font-size:1.3em}ul{margin:.3em 0;padding-left:1.2em}`;

/**
 * Points are in pixels of the picture as it is shown. Every change is sent to the editor, which answers with the size; the
 * button sends the field to write.
 */
const SCRIPT = `const editor = acquireVsCodeApi();
const $ = id => document.getElementById(id);
const [stage, picture, image, drawing, answer] = ['stage', 'picture', 'image', 'drawing', 'answer'].map($);
const points = { thing: [], known: [] };
let cross, zoom = 1;
const size = () => ({ width: image.naturalWidth, height: image.naturalHeight });
const kind = () => document.querySelector('input[name=kind]:checked').value;
const clamp = ({ x, y }) => ({ x: Math.min(Math.max(Math.round(x), 0), size().width), y: Math.min(Math.max(Math.round(y), 0), size().height) });
const add = (name, look, values) => {
  const one = document.createElementNS('http://www.w3.org/2000/svg', name);
  one.setAttribute('class', look);
  for (const [key, value] of Object.entries(values)) one.setAttribute(key, value);
  drawing.append(one);
};
function draw() {
  const { width, height } = size();
  drawing.setAttribute('viewBox', '0 0 ' + width + ' ' + height);
  drawing.replaceChildren();
  const mark = width / 60 / zoom;
  for (const look of ['known', 'thing']) for (const layer of ['halo', look]) {
    const [a, b] = points[look];
    for (const { x, y } of points[look]) add('circle', layer, { cx: x, cy: y, r: mark / 3 });
    if (b) add('line', layer, { x1: a.x, y1: a.y, x2: b.x, y2: b.y });
  }
  if (cross) for (const layer of ['halo', 'cross']) {
    add('line', layer, { x1: cross.x - mark, y1: cross.y, x2: cross.x + mark, y2: cross.y });
    add('line', layer, { x1: cross.x, y1: cross.y - mark, x2: cross.x, y2: cross.y + mark });
  }
}
function ask(more = {}) {
  const [a, b] = points.thing;
  if (!a || !b) return say('Set two points on the thing: click, or move the cross with the arrow keys and press Enter.');
  const text = id => $(id).value.trim();
  const chosen = text('defect');
  editor.postMessage({ ...more, asked: {
    shown: size(), points: [a, b],
    distance: text('distance'), known: text('length'),
    ...(points.known.length === 2 ? { knownPoints: points.known } : {}),
    lens: text('lens'), oblique: text('oblique'),
    ...(chosen === '' ? {} : { defect: chosen, field: text('field') }),
  } });
}
function say(text, lines = []) {
  const head = document.createElement('p');
  head.textContent = text;
  const list = document.createElement('ul');
  list.append(...lines.map(line => { const item = document.createElement('li'); item.textContent = line; return item; }));
  answer.replaceChildren(head, ...(lines.length > 0 ? [list] : []));
  $('write').disabled = true;
}
addEventListener('message', ({ data: { measured, mistake, written } }) => {
  if (written) return say(written);
  if (mistake || !measured) return say(mistake ?? '');
  say('', [...measured.grounds, ...measured.doubts]);
  const found = document.createElement('b');
  found.textContent = measured.written;
  answer.firstChild.append(found);
  $('write').disabled = $('defect').value === '';
});
function set(point) {
  const own = points[kind()];
  if (own.length === 2) own.length = 0;
  own.push(point);
  cross = point;
  draw();
  ask();
}
picture.addEventListener('click', ({ clientX, clientY }) => {
  const { left, top, width, height } = image.getBoundingClientRect();
  stage.focus();
  set(clamp({ x: ((clientX - left) / width) * size().width, y: ((clientY - top) / height) * size().height }));
});
const STEPS = { ArrowLeft: [-1, 0], ArrowRight: [1, 0], ArrowUp: [0, -1], ArrowDown: [0, 1] };
stage.addEventListener('keydown', event => {
  const { key, shiftKey } = event;
  const step = STEPS[key];
  if (step) {
    const far = shiftKey ? Math.max(1, Math.round(size().width / 50)) : 1;
    const { x, y } = cross ?? { x: size().width / 2, y: size().height / 2 };
    cross = clamp({ x: x + step[0] * far, y: y + step[1] * far });
    draw();
    follow();
  } else if (key === 'Enter' || key === ' ') set(cross ?? clamp({ x: size().width / 2, y: size().height / 2 }));
  else if (key === 'Backspace' || key === 'Delete') { points[kind()].pop(); draw(); ask(); }
  else if (key === '+' || key === '=') enlarge(1.5);
  else if (key === '-') enlarge(1 / 1.5);
  else return;
  event.preventDefault();
});
function follow() {
  const scale = image.clientWidth / size().width;
  const [x, y] = [cross.x * scale, cross.y * scale];
  if (x < stage.scrollLeft || x > stage.scrollLeft + stage.clientWidth) stage.scrollLeft = x - stage.clientWidth / 2;
  if (y < stage.scrollTop || y > stage.scrollTop + stage.clientHeight) stage.scrollTop = y - stage.clientHeight / 2;
}
function enlarge(by) {
  zoom = Math.min(16, Math.max(1, zoom * by));
  picture.style.width = 100 * zoom + '%';
  draw();
  if (cross) { const scale = image.clientWidth / size().width; stage.scrollTo(cross.x * scale - stage.clientWidth / 2, cross.y * scale - stage.clientHeight / 2); }
}
$('larger').addEventListener('click', () => enlarge(1.5));
$('smaller').addEventListener('click', () => enlarge(1 / 1.5));
for (const id of ['distance', 'length', 'lens', 'oblique', 'defect', 'field']) $(id).addEventListener('input', () => ask());
$('write').addEventListener('click', () => ask({ write: true }));
image.addEventListener('error', () => say('The editor can not show this picture: save it as JPEG, PNG or WebP.'));
const ready = () => { draw(); ask(); };
if (image.complete && image.naturalWidth > 0) ready(); else image.addEventListener('load', ready);`;

const FIELDS = [
  ['width', 'width'],
  ['length', 'length'],
  ['opening-width', 'width of the opening'],
  ['opening-height', 'height of the opening'],
] as const;

const option = (value: string, text: string, isChosen = false): string =>
  `<option value="${escaped(value)}"${isChosen ? ' selected' : ''}>${escaped(text)}</option>`;

/** Its policy allows its own script and style, and pictures in the page. */
export function measurePage(
  { source, name, tree, defects, defect, distance = '' }: MeasurePage,
  nonce: string,
): string {
  const policy = `default-src 'none'; img-src data:; style-src 'nonce-${nonce}'; script-src 'nonce-${nonce}'`;
  const title = `Measure in ${name}`;
  const input = (id: string, text: string, value = '', example = '') =>
    `<label>${escaped(text)}<input id="${id}" value="${escaped(value)}" placeholder="${escaped(example)}" spellcheck="false"></label>`;
  return `<!DOCTYPE html><html lang="en"><head><meta charset="utf-8"><title>${escaped(title)}</title>
<meta http-equiv="Content-Security-Policy" content="${policy}">
<style nonce="${nonce}">${STYLE}</style></head><body><main><h1>${escaped(title)}</h1>
<div id="stage" class="stage" tabindex="0" role="application" aria-label="The picture. Arrow keys move the cross by a pixel, with Shift farther; Enter sets a point, Delete takes it back; plus and minus enlarge."><div id="picture" class="picture"><img id="image" src="${escaped(source)}" alt="${escaped(name)}"><svg id="drawing" aria-hidden="true" preserveAspectRatio="none"></svg></div></div>
<div><div><button type="button" id="larger">Enlarge</button><button type="button" id="smaller">Reduce</button></div>
<fieldset><legend>The points are on</legend><label><input type="radio" name="kind" value="thing" checked> the thing</label><label><input type="radio" name="kind" value="known"> a known length beside it</label></fieldset>
${input('distance', 'Distance to the thing', distance, '20 ft')}${input('length', 'Known length, in place of the distance', '', '12 in')}${input('lens', 'Lens as on 35 mm film, if not in the file', '', '26 mm')}${input('oblique', 'Turned from square at most', '', '30 deg')}
<output id="answer" aria-live="polite"></output>
<label>Defect of tree ${escaped(tree)}<select id="defect">${option('', 'none')}${defects.map(one => option(one, one, one === defect)).join('')}</select></label>
<label>Field<select id="field">${FIELDS.map(([value, text]) => option(value, text)).join('')}</select></label>
<button type="button" id="write" disabled>Write</button></div></main>
<script nonce="${nonce}">${SCRIPT}</script></body></html>`;
}
