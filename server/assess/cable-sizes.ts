/** Sizes of cables that the figures ask for, and forces in the units of the writer. */

import { plainNumber, unitOf } from '../base/quantity.ts';
import type { Settings } from '../facts/settings.ts';
import type { Site, Tree } from '../facts/types.ts';
import { strandCitation, WORKING_SHARE } from '../practice/cables.ts';
import { type ForkSafety, forkSafety, forksOf } from './fork-safety.ts';
import { lengthUp } from './prescriptions.ts';
import { type CableLoad, cableLoad } from './supports.ts';

const isImperial = ({ diameters, height }: Pick<Tree, 'diameters' | 'height'>): boolean =>
  [...diameters, ...(height ? [height] : [])].some(({ value: { unit } }) =>
    ['in', 'ft'].includes(unit?.symbol ?? ''),
  );

/** In the units of the tree, to three figures. */
const forceRounded =
  (round: (value: number) => number, slack: number) =>
  (newtons: number, tree: Pick<Tree, 'diameters' | 'height'>): string => {
    const unit = unitOf(isImperial(tree) ? 'lbf' : 'kN')!;
    const digits = unit.symbol === 'kN' ? 1 : 0;
    const value = newtons / unit.factor;
    const step = Math.max(10 ** -digits, 10 ** (Math.floor(Math.log10(Math.max(1, value))) - 2));
    return `${plainNumber(round(value / step + slack) * step, digits)} ${unit.symbol}`;
  };

/** `2210 lbf`, `9.9 kN`, or less. */
export const forceUp = forceRounded(Math.ceil, -1e-9);
/** `2210 lbf`, `9.9 kN`, or more. */
export const forceDown = forceRounded(Math.floor, 1e-9);

/** `9.9 kN: 3/8 in strand …`. */
export const strandWords = ({ needed, strand }: CableLoad, tree: Tree): string =>
  strand
    ? `${strand.name} ${strandCitation.short} or stronger (breaking load ${forceUp(strand.breaking, tree)}, working load one fifth; from memory), with grips, bolts and eyes rated for ${forceUp(needed.high, tree)} too`
    : `no strand up to 1/2 in (from memory) has enough working load: use several cables, or a calculated design for ${forceUp(needed.high / WORKING_SHARE, tree)} of breaking load`;

/** `between North and South, at 41 ft or higher, it takes a working load of 2210 lbf: …`. */
function cableWords(fork: ForkSafety, load: CableLoad, tree: Tree, settings: Settings): string {
  const least = settings.limit('cable-height').value;
  const at = fork.height.high + least * fork.length.high;
  const names = fork.stems.map(({ name }) => name.value).join(' and ');
  return `between ${names}, at ${lengthUp(at, tree.height?.value) ?? 'two thirds of their length'} or higher, a cable needs a working load of ${forceUp(load.needed.high, tree)}: ${strandWords(load, tree)}`;
}

/** What a cable at each fork among some stems would take, in words; why there is no figure, where there is none. */
export const cablesFor = (
  members: readonly string[],
  {
    tree,
    site,
    settings,
  }: { readonly tree: Tree; readonly site: Site | undefined; readonly settings: Settings },
): readonly string[] =>
  forksOf(tree).flatMap(([one, other]) => {
    if (![one, other].some(({ name }) => members.includes(name.value))) return [];
    const fork = forkSafety(one, other, tree, site, settings);
    const names = `${one.name.value} and ${other.name.value}`;
    if (typeof fork === 'string') return [`for a cable between ${names} there is no figure: ${fork}`];
    const isCracked = [one, other].some(({ union }) => union?.value === 'cracked');
    const load = cableLoad(fork, { fixed: undefined, slope: undefined }, isCracked, settings);
    return typeof load === 'string'
      ? [`for a cable between ${names} there is no figure: ${load}`]
      : [cableWords(fork, load, tree, settings)];
  });
