/** The phrases of field notes, with the line that each makes. */

import { HEDGE, LENGTH, NUM, PART, POINT, SIDE, UNIT, UP, USE } from './note-words.ts';
import type { Place, TreeNotes } from './tree-notes.ts';

interface Phrase {
  readonly in: readonly Place[];
  readonly pattern: RegExp;
  readonly write: (groups: readonly string[], notes: TreeNotes) => void;
}

const phrase = (
  places: Place | readonly Place[],
  source: string,
  write: (groups: readonly string[], notes: TreeNotes) => void,
): Phrase => ({ in: [places].flat(), pattern: new RegExp(`(?:${source})(?=$|[\\s,;.])`, 'iuy'), write });

const point = (written: string): string =>
  written
    .toLowerCase()
    .replace(/north|south|east|west/g, one => one[0]!)
    .replace(/[\s-]/g, '')
    .toUpperCase();

const located = (part: string | undefined, height: string, side: string | undefined): string =>
  `${part === undefined ? 'at' : 'on trunk at'} ${height.replace(new RegExp(`${UP}$`, 'iu'), '')}${side === undefined ? '' : `, facing ${point(side)}`}`;

const VIGOR = '(good|fair|poor|dead|normal|declining|low|weak|healthy|stressed|dying)';
const AGE = '(young|semi[\\s-]?mature|mature|over[\\s-]?mature|veteran)';

/** Longest phrases first; each is tried in its places only. */
export const PHRASES: readonly Phrase[] = [
  phrase(
    ['tree', 'defect', 'target'],
    `(-?\\d{1,2}\\.\\d{3,})[\\s,]+(-?\\d{1,3}\\.\\d{3,})`,
    ([lat, lon], notes) => notes.ofTree(`position ${lat}, ${lon}`),
  ),
  phrase(
    ['tree', 'defect', 'target'],
    `dbh\\s*(?:of|is|=|:)?\\s*(${LENGTH}(?:\\s*(?:,|and|&)\\s*${LENGTH})*)|(${LENGTH})\\s*(?:dbh|at\\s+breast\\s+height)`,
    ([a, b], notes) => notes.ofTree(`dbh ${a ?? b}`),
  ),
  phrase(
    ['tree'],
    `(?:diameter|diam|dia)\\s*(?:of|is)?\\s*(${LENGTH})|(${LENGTH})\\s*(?:in\\s+)?(?:diameter|diam|dia)`,
    ([a, b], notes) => notes.ofTree(`size ${a ?? b}`),
  ),
  phrase(
    ['tree', 'defect', 'target'],
    `(?:girth|circumference|circ)\\s*(?:of|is)?\\s*(${LENGTH})|(${LENGTH})\\s*(?:girth|circumference)`,
    ([a, b], notes) => notes.ofTree(`girth ${a ?? b}`),
  ),
  phrase(
    ['tree'],
    `(?:height|ht|hgt)\\s*(?:of|is)?\\s*(${LENGTH})|(${LENGTH})\\s*(?:tall|high|height)`,
    ([a, b], notes) => notes.ofTree(`height ${a ?? b}`),
  ),
  phrase(
    ['tree'],
    `crown\\s+(?:from|base(?:\\s+at)?)\\s+(${LENGTH})(?:\\s*,?\\s*(?:and\\s+)?(${LENGTH})\\s*(?:wide|spread|across))?`,
    ([from, wide], notes) => notes.ofTree(`crown from ${from}${wide === undefined ? '' : `, ${wide} wide`}`),
  ),
  phrase(
    ['tree'],
    `(?:(?:crown|canopy)\\s+)?spread\\s*(?:of|is)?\\s*(${LENGTH})|(${LENGTH})\\s*(?:wide\\s+(?:crown|canopy)|(?:crown\\s+|canopy\\s+)?spread)|(?:crown|canopy)\\s+(${LENGTH})\\s*(?:wide|across)`,
    ([a, b, c], notes) => notes.ofTree(`crown ${a ?? b ?? c} wide`),
  ),
  phrase(['tree'], `(?:crown|canopy)\\s+(${LENGTH})`, ([a], notes) => notes.ofTree(`crown ${a}`)),
  phrase(
    ['tree', 'defect'],
    `(?:leans?|leaning)\\s*(${HEDGE}${NUM})\\s*(?:deg(?:rees?)?)?\\s*(?:to(?:wards?)?\\s*)?(?:the\\s+)?(${POINT})?`,
    ([angle, side], notes) =>
      notes.ofTree(`lean ${angle} deg${side === undefined ? '' : ` toward ${point(side)}`}`),
  ),
  phrase(
    ['tree', 'defect', 'target'],
    `(?:vigou?r|health)\\s*(?:is|:)?\\s*${VIGOR}|${VIGOR}\\s+(?:vigou?r|health)`,
    ([a, b], notes) => notes.ofTree(`vigor ${a ?? b}`),
  ),
  phrase(
    ['tree', 'defect', 'target'],
    `condition\\s*(?:is|:)?\\s*${VIGOR}|${VIGOR}\\s+condition`,
    ([a, b], notes) => notes.ofTree(`condition ${a ?? b}`),
  ),
  phrase(['tree', 'defect', 'target'], `(?:age\\s+)?${AGE}`, ([age], notes) =>
    notes.ofTree(
      `age ${age!
        .replace(/^semi[\s-]?/i, 'semi-')
        .replace(/^over[\s-]?/i, 'over-')
        .toLowerCase()}`,
    ),
  ),
  phrase(
    ['tree', 'defect'],
    `(${HEDGE}${NUM})\\s*%\\s*(?:crown\\s+)?dieback|dieback\\s*(?:of)?\\s*(${HEDGE}${NUM})\\s*%`,
    ([a, b], notes) => notes.ofTree(`dieback ${a ?? b} %`),
  ),
  phrase(['tree', 'defect'], `soil\\s+(?:is\\s+)?(firm|cracked|heaving|wet|compacted)`, ([soil], notes) =>
    notes.ofTree(`soil ${soil!.toLowerCase()}`),
  ),
  phrase(['tree'], `(${NUM}(?:\\s*(?:,|and|&|\\+)\\s*${NUM})+\\s*${UNIT}|${LENGTH})`, ([size], notes) =>
    notes.ofTree(/(?:ft|m)\s*(?:\+|or more)?$/.test(size!) ? `extent ${size}` : `size ${size}`),
  ),

  phrase(
    'defect',
    `opening\\s*(?:of|is)?\\s*(${HEDGE}${NUM}\\s*(?:${UNIT})?\\s*(?:by|x|×)\\s*${NUM}(?:\\s*${UNIT})?|${LENGTH}(?:\\s*wide)?)`,
    ([size], notes) =>
      notes.field(
        `opening ${/\b(?:by|x)\b|[x×]/.test(size!) || /wide$/.test(size!) ? size : `${size} wide`}`,
      ),
  ),
  phrase('defect', `opening\\s+closed|closed\\s+over`, (_, notes) => notes.field('opening closed')),
  phrase(
    'defect',
    `(?:sound\\s+)?(?:wall|shell)s?\\s*(?:of|is|thickness)?\\s*(${LENGTH})(?:\\s*(?:thick)?\\s*(?:at|on)?\\s*(?:the\\s+)?(${POINT}))?`,
    ([wall, side], notes) => notes.field(`wall ${wall}${side === undefined ? '' : ` at ${point(side)}`}`),
  ),
  phrase(
    'defect',
    `(?:depth|probed?|probe\\s+goes)\\s*(?:of|is|to|in)?\\s*(${LENGTH})(?:\\s*deep)?|(${LENGTH})\\s*deep`,
    ([a, b], notes) => notes.field(`depth ${a ?? b}`),
  ),
  phrase(
    'defect',
    `(?:stem\\s+|trunk\\s+)?(?:diameter|dia)\\s*(?:there\\s+)?(?:of|is)?\\s*(${LENGTH})`,
    ([a], notes) => notes.field(`diameter ${a}`),
  ),
  phrase('defect', `(${LENGTH})\\s*long|length\\s*(?:of|is)?\\s*(${LENGTH})`, ([a, b], notes) =>
    notes.field(`length ${a ?? b}`),
  ),
  phrase('defect', `(${LENGTH})\\s*wide|width\\s*(?:of|is)?\\s*(${LENGTH})`, ([a, b], notes) =>
    notes.field(`width ${a ?? b}`),
  ),
  phrase(
    'defect',
    `(${HEDGE}${NUM})\\s*%\\s*(?:of\\s+)?(?:the\\s+)?(circumference|crown|roots)`,
    ([share, of], notes) => notes.field(`share ${share} % of ${of!.toLowerCase()}`),
  ),
  phrase(
    'defect',
    `(?:${PART}\\s*,?\\s*)?${SIDE}\\s*,?\\s*(?:at\\s+)?(${LENGTH})${UP}?`,
    ([part, side, height], notes) => notes.field(located(part, height!, side)),
  ),
  phrase(
    'defect',
    `(?:${PART}\\s*,?\\s*)?(?:at\\s+)(${LENGTH})${UP}?(?:\\s*,?\\s*${SIDE})?`,
    ([part, height, side], notes) => notes.field(located(part, height!, side)),
  ),
  phrase(
    'defect',
    `(?:${PART}\\s*,?\\s*)?(${LENGTH})${UP}(?:\\s*,?\\s*${SIDE})?`,
    ([part, height, side], notes) => notes.field(located(part, height!, side)),
  ),
  phrase('defect', `${PART}\\s*,?\\s*(${LENGTH})(?:\\s*,?\\s*${SIDE})?`, ([part, height, side], notes) =>
    notes.field(located(part, height!, side)),
  ),
  phrase('defect', `(suspected|increasing|steady|healed|filled)`, ([state], notes) =>
    notes.field(`state ${state!.toLowerCase()}`),
  ),

  phrase(
    'target',
    `(${LENGTH})\\s*(?:away|off|out)?(?:\\s*(?:to(?:wards?)?\\s+)?(?:the\\s+)?(${POINT}))?`,
    ([away, side], notes) =>
      notes.field(`distance ${away}${side === undefined ? '' : ` toward ${point(side)}`}`),
  ),
  phrase('target', `(?:used\\s+|occupied\\s+|use\\s+)?${USE}`, ([use], notes) =>
    notes.field(`occupied ${use!.toLowerCase()}`),
  ),
];
