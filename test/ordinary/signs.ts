/**
 * What a person would see in a record at once, read here without the program: signs of movement, losses far beyond any
 * published mark, and what no figure can be given for. Only what is certain is named; the program may find more.
 */

import {
  type Block,
  kindOf,
  type Line,
  lineNamed,
  type OrdinaryTree,
  type Reading,
  readingsOf,
  wordsOf,
} from './record.ts';

const INCH = 0.0254;
const METRES: Readonly<Record<string, number>> = { in: INCH, ft: 12 * INCH, mm: 0.001, cm: 0.01, m: 1 };

const says = (line: Line | undefined, ...words: readonly string[]): boolean =>
  line?.tokens.some(token => typeof token === 'string' && words.includes(token)) ?? false;

/** The smallest value that a reading allows, in metres or in what its unit counts. */
function least({ form, value, unit }: Reading): number {
  const of = form === 'below' ? 0 : form === 'about' ? value * 0.9 : value;
  return of * (METRES[unit] ?? 1);
}

function most({ form, value, to, unit }: Reading): number {
  const of = form === 'above' ? Number.POSITIVE_INFINITY : form === 'about' ? value * 1.1 : (to ?? value);
  return of * (METRES[unit] ?? 1);
}

const first = (block: Block, word: string): Reading | undefined => {
  const line = lineNamed(block, word);
  return line && readingsOf(line)[0];
};

const treeOf = ({ blocks }: OrdinaryTree): Block => blocks[0]!;

export const blocksNamed = ({ blocks }: OrdinaryTree, kind: string): readonly Block[] =>
  blocks.filter(block => kindOf(block) === kind);

/** Defects that still matter. */
const defectsOf = (tree: OrdinaryTree): readonly Block[] =>
  blocksNamed(tree, 'defect').filter(
    block => !lineNamed(block, 'closed') && !says(lineNamed(block, 'state'), 'healed'),
  );

const isIncreasing = (block: Block) => says(lineNamed(block, 'state'), 'increasing');

/** `cavity`, `root decay`. */
const defectKind = (block: Block): string => wordsOf(block).slice(2).join(' ');

export const isDead = (tree: OrdinaryTree): boolean => says(lineNamed(treeOf(tree), 'vigor'), 'dead');

/** It is failing now: lean that is new or grows, soil that lifts or cracks, what hangs, what comes apart. */
export function moving(tree: OrdinaryTree): readonly string[] {
  const [own] = tree.blocks;
  return [
    ...(says(lineNamed(own!, 'lean'), 'increasing', 'new') ? ['lean'] : []),
    ...(says(lineNamed(own!, 'soil'), 'heaving', 'cracked') ? ['soil'] : []),
    ...defectsOf(tree).flatMap(block => {
      const kind = defectKind(block);
      const moves = kind === 'hanger' || (isIncreasing(block) && (kind === 'crack' || kind === 'weak union'));
      return moves && !says(lineNamed(block, 'state'), 'suspected') ? [`${kind} ${wordsOf(block)[1]}`] : [];
    }),
    ...['stem', 'limb'].flatMap(part =>
      blocksNamed(tree, part).flatMap(block =>
        says(lineNamed(block, 'union'), 'cracked') ? [`union of ${wordsOf(block)[1]}`] : [],
      ),
    ),
  ];
}

/** More than half of the roots, or of the girth: beyond every published mark, whatever else is read. */
const FAR_BEYOND = 50;
/** Of the radius: a wall as thin is below every mark, with bark or without. */
const THIN_WALL = 0.12;

function isFarBeyond(block: Block): boolean {
  if (says(lineNamed(block, 'state'), 'suspected')) return false;
  switch (defectKind(block)) {
    case 'root decay':
    case 'root loss':
    case 'canker': {
      const share = first(block, 'share');
      return share !== undefined && least(share) > FAR_BEYOND;
    }
    case 'cavity':
    case 'decay': {
      const wall = lineNamed(block, 'wall');
      const diameter = first(block, 'diameter');
      // One reading without a bearing is what the writer says of all round.
      if (!wall || !diameter || wall.tokens.length > 1 || lineNamed(block, 'depth')) return false;
      return most(readingsOf(wall)[0]!) < (THIN_WALL * least(diameter)) / 2;
    }
    default:
      return false;
  }
}

export const farBeyond = (tree: OrdinaryTree): readonly string[] => [
  ...(isDead(tree) ? ['dead tree'] : []),
  ...defectsOf(tree).flatMap(block =>
    isFarBeyond(block) ? [`${defectKind(block)} ${wordsOf(block)[1]}`] : [],
  ),
];

/** Lines that measure; the others of a defect say where it is and what was seen. */
export const MEASURES: ReadonlySet<string> = new Set([
  'diameter',
  'opening',
  'depth',
  'wall',
  'length',
  'width',
  'share',
  'distance',
]);

/** Defects of which nobody read anything, and hollows without a section: no figure can judge them. */
export const unjudged = (tree: OrdinaryTree): readonly string[] =>
  defectsOf(tree).flatMap(block => {
    const kind = defectKind(block);
    const has = (word: string) => lineNamed(block, word) !== undefined;
    const hollow = kind === 'cavity' || kind === 'decay';
    const lacks = hollow
      ? !has('diameter') || !(has('wall') || has('depth'))
      : !block.lines.some(({ word }) => MEASURES.has(word));
    return lacks ? [`${kind} ${wordsOf(block)[1]}`] : [];
  });

const ROT_OF_ROOTS_AND_BUTT = ['Kretzschmaria deusta', 'Armillaria mellea', 'Meripilus giganteus'];
/** m: the butt, where a bracket speaks of the roots whatever its kind. */
const BUTT = 1;

/** A fungus whose rot sits in roots and butt: the section above it tells nothing about the anchorage. */
export const buttFungi = (tree: OrdinaryTree): readonly string[] =>
  defectsOf(tree).flatMap(block => {
    if (defectKind(block) !== 'fungus') return [];
    const on = first(block, 'on');
    const low = says(lineNamed(block, 'on'), 'trunk') && on !== undefined && most(on) <= BUTT;
    const rots = says(lineNamed(block, 'species'), ...ROT_OF_ROOTS_AND_BUTT);
    return low || rots ? [`fungus ${wordsOf(block)[1]}`] : [];
  });

export const growing = (tree: OrdinaryTree): readonly string[] =>
  defectsOf(tree).flatMap(block =>
    isIncreasing(block) ? [`${defectKind(block)} ${wordsOf(block)[1]}`] : [],
  );

/** Only a tree that was doubted is pulled, cabled or propped; first words of the records. */
const SIGNS_OF_DOUBT = ['defect', 'pull', 'support'];

/** Nothing that could be read as a sign: the sound tree of every street. */
export function isSound(tree: OrdinaryTree): boolean {
  const own = treeOf(tree);
  const lean = first(own, 'lean');
  return (
    SIGNS_OF_DOUBT.every(kind => blocksNamed(tree, kind).length === 0) &&
    !isDead(tree) &&
    moving(tree).length === 0 &&
    (lean === undefined || most(lean) <= 15) &&
    ['stem', 'limb'].every(part =>
      blocksNamed(tree, part).every(
        block => !says(lineNamed(block, 'union'), 'included bark', 'cracked', 'unseen'),
      ),
    )
  );
}

/** A target that the falling tree surely reaches: within half of its height. */
export function hasTargetInReach(tree: OrdinaryTree): boolean {
  const height = first(treeOf(tree), 'height');
  return (
    height !== undefined &&
    blocksNamed(tree, 'target').some(block => {
      const distance = first(block, 'distance');
      return distance !== undefined && most(distance) <= least(height) / 2;
    })
  );
}

/** What could answer a sign: work, a look that is planned, an exception. */
const ANSWERS = ['prescription', 'follow-up', 'accept'];

export const unanswered = (tree: OrdinaryTree): OrdinaryTree => ({
  ...tree,
  blocks: tree.blocks.filter(block => !ANSWERS.includes(kindOf(block))),
});

/** What a survey asks of each target, rating and line: where one is left open, a check says so, and is right. */
const ASKED: Readonly<Record<string, readonly string[]>> = {
  target: ['distance', 'occupied'],
  risk: ['failure', 'impact', 'consequences', 'rating'],
  conductor: ['voltage', 'distance'],
};

export const isFilledIn = ({ blocks }: OrdinaryTree): boolean =>
  blocks.every(block => (ASKED[kindOf(block)] ?? []).every(word => lineNamed(block, word)));

/** What only work brings about: windows, doses, checks for nests, crews. */
const WORK = [...ANSWERS, 'nest check', 'bat check'];

export const withoutWork = (tree: OrdinaryTree): OrdinaryTree => ({
  ...tree,
  blocks: tree.blocks.filter(({ head }) => !WORK.some(word => head.startsWith(`${word} `))),
});
