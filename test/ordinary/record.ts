/** A tree as a record that prints to text, so that a property can change one thing of it and print it again. */

/** A value with a unit, as written. `value` and `to` are in the writer's unit. */
export interface Reading {
  readonly form: 'exact' | 'about' | 'range' | 'above' | 'below';
  readonly value: number;
  /** Of a range. */
  readonly to?: number;
  readonly unit: string;
}

/** Words stand for themselves, a comma by itself is one. */
export type Token = string | Reading;

export interface Line {
  readonly word: string;
  readonly tokens: readonly Token[];
}

export interface Block {
  /** `defect A cavity`. */
  readonly head: string;
  readonly lines: readonly Line[];
}

export interface OrdinaryTree {
  /** Which of the sites of program.ts it stands in, and in which units it is written. */
  readonly site: 'town' | 'parish';
  /** The tree itself first, then what stands inside it, in the order of the text. */
  readonly blocks: readonly Block[];
}

export const isReading = (token: Token): token is Reading => typeof token !== 'string';

/** As a hand would write it: no more digits than the value has. */
const number = (value: number): string => String(Number(value.toFixed(6)));

function showReading({ form, value, to, unit }: Reading): string {
  const low = number(value);
  if (form === 'range') return `${low}..${number(to!)} ${unit}`;
  return `${{ exact: '', about: '~', above: '> ', below: '< ' }[form]}${low} ${unit}`;
}

const showLine = ({ word, tokens }: Line): string =>
  `${word} ${tokens.map(token => (isReading(token) ? showReading(token) : token)).join(' ')}`.replaceAll(
    ' ,',
    ',',
  );

/** Head and fields, one line each; blocks inside the tree are indented as the formatter would. */
export const showTree = ({ blocks }: OrdinaryTree): string =>
  blocks
    .map(({ head, lines }, i) => {
      const indent = i === 0 ? '' : '  ';
      return [`${indent}${head}`, ...lines.map(line => `${indent}  ${showLine(line)}`), ''].join('\n');
    })
    .join('');

/** Number of the line of the text, from 1, on which the head of a block stands. */
export const lineOfHead = ({ blocks }: OrdinaryTree, block: number): number =>
  1 + blocks.slice(0, block).reduce((sum, { lines }) => sum + lines.length + 1, 0);

/** The word and the name of a head: `['defect', 'A', 'cavity']`. */
export const wordsOf = ({ head }: Block): readonly string[] => head.split(' ');

export const kindOf = (block: Block): string => wordsOf(block)[0]!;

export const lineNamed = ({ lines }: Block, word: string): Line | undefined =>
  lines.find(line => line.word === word);

export const readingsOf = ({ tokens }: Line): readonly Reading[] => tokens.filter(isReading);

export interface ReadingAt {
  readonly block: number;
  readonly line: number;
  readonly token: number;
  readonly reading: Reading;
}

export const readingsIn = ({ blocks }: OrdinaryTree): readonly ReadingAt[] =>
  blocks.flatMap(({ lines }, block) =>
    lines.flatMap(({ tokens }, line) =>
      tokens.flatMap((reading, token) => (isReading(reading) ? [{ block, line, token, reading }] : [])),
    ),
  );

const withBlock = (tree: OrdinaryTree, at: number, block: Block): OrdinaryTree => ({
  ...tree,
  blocks: tree.blocks.with(at, block),
});

export const withoutBlock = (tree: OrdinaryTree, at: number): OrdinaryTree => ({
  ...tree,
  blocks: tree.blocks.toSpliced(at, 1),
});

export function withoutLine(tree: OrdinaryTree, block: number, line: number): OrdinaryTree {
  const before = tree.blocks[block]!;
  return withBlock(tree, block, { ...before, lines: before.lines.toSpliced(line, 1) });
}

/** Another token in place of a reading. */
export function withReading(tree: OrdinaryTree, { block, line, token }: ReadingAt, by: Token): OrdinaryTree {
  const before = tree.blocks[block]!;
  const { word, tokens } = before.lines[line]!;
  return withBlock(tree, block, {
    ...before,
    lines: before.lines.with(line, { word, tokens: tokens.with(token, by) }),
  });
}

export const mapReadings = (tree: OrdinaryTree, by: (reading: Reading) => Reading): OrdinaryTree => ({
  ...tree,
  blocks: tree.blocks.map(block => ({
    ...block,
    lines: block.lines.map(line => ({
      ...line,
      tokens: line.tokens.map(token => (isReading(token) ? by(token) : token)),
    })),
  })),
});
