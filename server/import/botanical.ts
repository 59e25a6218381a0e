/** Botanical names as lists write them → the form of the notation. */

import { commonNames, treesCalled } from '../practice/common-names.ts';
import { genera } from '../practice/genera.ts';
import { genusNames, lookupGenus, speciesTable } from '../practice/species.ts';
import { canonical } from './notation.ts';
import { memoized, oneLine } from './text.ts';

/** Words for a kind of tree, with which names of everyday end: no epithet is one. */
const TREE_WORDS: ReadonlySet<string> = new Set(
  [
    ...genera.map(({ common }) => common),
    ...speciesTable.map(({ common }) => common),
    ...commonNames.flatMap(({ said }) => said),
    'gum box tree palm fig site stump bottlebrush wattle paperbark acacia brush shrub hedge privet myrtle mix unknown other',
  ].flatMap(name => name.toLowerCase().match(/\p{L}+$|\p{L}+(?= )/gu) ?? []),
);

/** Words beside a name that are no part of it: `cv.`, `indet.`, `hybrids`. */
const BESIDE =
  /\s+(?:cv\.?|cultivars?|hybrids?|hybr\.?|hort\.?|indet\.?|agg\.?|s\.l\.?|in var\.?|in sorten)(?=\s|$)/giu;
const RANK = /^(?:subsp|ssp|var|f|fo|forma|subvar|sect)\.?$/i;
const RANKS: Readonly<Record<string, string>> = {
  ssp: 'subsp.',
  subsp: 'subsp.',
  var: 'var.',
  f: 'f.',
  fo: 'f.',
  forma: 'f.',
};
const LATIN_ENDING = /(?:us|a|um|is|e|ii|i|ens|ans|oides|or|ax|ex|ix|os|es|on|as|er)$/;

export interface BotanicalName {
  /** What the notation has behind `species`. */
  readonly name: string;
  readonly genus: string;
  /** Whether nothing of the cell was left out. */
  readonly isWhole: boolean;
}

const sentence = (word: string): string => word.charAt(0).toUpperCase() + word.slice(1).toLowerCase();

/**
 * Reads a name in any case, with authors, glued or separate signs of hybrids, cultivars in any quotation marks or none.
 * Undefined where it is no botanical name by its form.
 */
export const botanicalName = memoized((cell: string): BotanicalName | undefined => {
  const text = oneLine(cell).replace(BESIDE, '').trim();
  // A # would turn the rest of the name into a comment.
  if (text === '' || text.includes('#')) return undefined;
  const quotedPart =
    /\s+(?:cv\.?\s*)?(?:'([^']+)'|‘([^’]+)’|"([^"]+)"|“([^”]+)”|`([^`']+)['`]|´([^´]+)´)/u.exec(text);
  const cultivar = quotedPart?.slice(1).find(part => part !== undefined);
  const bare = (quotedPart ? text.slice(0, quotedPart.index) : text).trim();
  const behind = quotedPart ? text.slice(quotedPart.index + quotedPart[0].length).trim() : '';
  const words = bare
    .replace(/×\s*/g, ' × ')
    .trim()
    .split(/\s+/)
    .map(word => (/^[xX]$/.test(word) ? '×' : word));
  const isShouted = bare === bare.toUpperCase() && /\p{L}{3}/u.test(bare);
  const isSmall = bare === bare.toLowerCase();
  const word = (at: number) => {
    const found = words[at] ?? '';
    return isShouted ? found.toLowerCase() : found;
  };
  let at = 0;
  const parts: string[] = [];
  if (word(at) === '×') {
    parts.push('×');
    at++;
  }
  const genus = isShouted || isSmall ? sentence(word(at)) : word(at);
  if (!/^[A-Z][a-zë-]{2,}$/.test(genus)) return undefined;
  // In capitals or small letters any word looks like a genus, and one alone is an epithet as well.
  if (
    (isShouted || isSmall) &&
    lookupGenus(genus) === undefined &&
    (words.length === 1 || !LATIN_ENDING.test(genus))
  )
    return undefined;
  parts.push(genus);
  at++;
  if (/^(?:n\.?)$/i.test(word(at)) && /^spp?\.?$/i.test(word(at + 1))) at++;
  if (/^(?:spp?|species|espece|especie|sorte)\.?$/i.test(word(at))) {
    parts.push(/^spp/i.test(word(at)) ? 'spp.' : 'sp.');
    at++;
  } else {
    const isHybrid = word(at) === '×' && /^[a-zë-]{2,}$/.test(word(at + 1));
    const epithet = word(at + (isHybrid ? 1 : 0));
    if (/^[a-zë][a-zë-]{2,}$/.test(epithet) && !RANK.test(epithet)) {
      parts.push(...(isHybrid ? ['×', epithet] : [epithet]));
      at += isHybrid ? 2 : 1;
    }
  }
  // Ranks may stand behind the authors of the species.
  let left = false;
  for (; at < words.length; at++) {
    const rank = RANKS[word(at).replace('.', '').toLowerCase()];
    const named = word(at + 1).toLowerCase();
    if (rank !== undefined && RANK.test(word(at)) && /^[a-zë][a-zë-]{2,}$/.test(named)) {
      parts.push(rank, named);
      at++;
    } else left = true;
  }
  // A second word with a capital is the name of a cultivar where no author could be meant: the writer left out its marks.
  const shown = [...parts, ...(cultivar === undefined ? [] : [`'${oneLine(cultivar)}'`])].join(' ');
  const line = canonical(`species ${shown}`);
  if (line === undefined) return undefined;
  return { name: line.trim().replace(/^species\s+/, ''), genus, isWhole: !left && behind === '' };
});

const secondWord = ({ name }: BotanicalName): string | undefined => name.replace(/^× /, '').split(' ')[1];

/** Whether a name looks Latin, known or not; `Spotted gum` and `Vacant site` have the form but are none. */
export function isLatin(cell: string): boolean {
  const read = botanicalName(cell);
  if (!read) return false;
  if (lookupGenus(read.genus) !== undefined) return true;
  const second = secondWord(read);
  if (!isNoCommonName(cell, read)) return false;
  const epithet = second === '×' ? read.name.split('× ')[1] : second;
  return (
    LATIN_ENDING.test(read.genus) &&
    (epithet === undefined || /^sp|^'/.test(epithet) || LATIN_ENDING.test(epithet))
  );
}

function isNoCommonName(cell: string, read: BotanicalName): boolean {
  const second = secondWord(read);
  return (
    !(second !== undefined && TREE_WORDS.has(second)) &&
    treesCalled(cell).length === 0 &&
    !TREE_WORDS.has(read.genus.toLowerCase())
  );
}

/** Whether it may be a botanical name where the others of its column are some: `Tipuana tipu`. */
export function mayBeLatin(cell: string): boolean {
  const read = botanicalName(cell);
  return (
    read !== undefined && (isLatin(cell) || (secondWord(read) !== undefined && isNoCommonName(cell, read)))
  );
}

export const isKnownGenus = (word: string): boolean => genusNames.includes(word);
