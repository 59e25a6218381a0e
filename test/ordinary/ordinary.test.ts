/**
 * What has to hold of every ordinary tree, whatever was read of it. ORDINARY_TREES=10000 looks at more of them,
 * PROPERTY_SEED at others.
 */

import { describe, test } from 'vitest';
import { LIKELIHOODS_OF_FAILURE } from '../../server/practice/risk.ts';
import type { Finding } from '../../server/rules/check.ts';
import { inOtherOrder, inOtherUnits, isAbout, isStillTold, widened, withoutEvidence } from './changes.ts';
import { holds, type Property } from './holds.ts';
import {
  appointmentsNamed,
  clientPage,
  findingsOn,
  groupOf,
  likelihoodOf,
  OUTPUTS,
  TODAY,
  weighed,
  weighedText,
} from './program.ts';
import type { OrdinaryTree } from './record.ts';
import {
  blocksNamed,
  buttFungi,
  farBeyond,
  growing,
  hasTargetInReach,
  isDead,
  isSound,
  moving,
  unanswered,
  unjudged,
} from './signs.ts';

/** A long run takes as long as it takes. */
const property = (name: string, of: Property) => test(name, () => holds(of), 0);

const isError = ({ level, grade }: Finding) => level === 'error' && grade !== 'syntax';
const rank = (word: string) => (LIKELIHOODS_OF_FAILURE as readonly string[]).indexOf(word);
const told = ({ rule, subject }: Finding) => `${rule} (${subject})`;

/** Who has a fault in one tree of a thousand has an inventory without a report. */
describe('no tree is too ordinary to be put out', () => {
  for (const [name, output] of Object.entries(OUTPUTS))
    property(name, async tree => {
      try {
        await output(tree);
        return undefined;
      } catch (error) {
        return `${name} fails: ${(error as Error).message}`;
      }
    });
});

/** The gate says one thing and the scales another: whoever reads only one of them is misled. */
describe('check and weigh never contradict each other', () => {
  const optionOf = (tree: OrdinaryTree, name: string) =>
    weighed(tree).options.find(({ option }) => option.includes(name));

  property('leaving a tree with an error about its structure is not supported', tree => {
    if (optionOf(tree, 'leave')?.support !== 'supported') return undefined;
    const error = findingsOn(tree).find(found => isError(found) && groupOf(found) === 'structure');
    return error && `leaving is supported beside an error of ${error.rule}: ${told(error)}`;
  });

  property('leaving a tree that moves, is dead or was not judged over people is not supported', tree => {
    if (optionOf(tree, 'leave')?.support !== 'supported') return undefined;
    const [sign] = [...moving(tree), ...farBeyond(tree), ...(hasTargetInReach(tree) ? unjudged(tree) : [])];
    return sign && `leaving is supported in spite of a sign: ${sign}`;
  });

  property(
    'what depends on a reading does not stand beside “no measurement would change any verdict”',
    tree => {
      const { options } = weighed(tree);
      const depends = options.find(({ support }) => support === 'depends on a reading');
      const settled = options.some(({ because }) => /[Nn]o measurement would change/.test(because.join(' ')));
      if (depends && settled)
        return `“${depends.option}” depends on a reading that no measurement would change`;
      const text = weighedText(tree);
      return /depends on a\s+reading/.test(text) && /[Nn]o\s+reading\s+would\s+change/.test(text)
        ? 'both stand in the text'
        : undefined;
    },
  );

  property('nothing says that the figures do not call for felling where they cannot say so', tree => {
    const doubts = {
      'a fungus at the butt': buttFungi(tree),
      'a growing defect': growing(tree),
      movement: moving(tree),
      'a dead tree': isDead(tree) ? ['tree'] : [],
      'a sign that nobody judged': unjudged(tree),
    };
    const [kind, [sign] = []] = Object.entries(doubts).find(([, signs]) => signs.length > 0) ?? [];
    if (!kind) return undefined;
    const fell = optionOf(tree, 'fell');
    // Under whatever words: `not called for`, `the figures do not require it`.
    if (fell && /not (?:called|asked|ask) for|do(?:es)? not (?:call|ask|require)/.test(fell.support))
      return `felling is “${fell.support}” beside ${kind}: ${sign}`;
    const found = findingsOn(tree).find(({ rule }) => rule === 'removal-not-called-for');
    return found && `removal-not-called-for beside ${kind}: ${sign}, ${told(found)}`;
  });
});

/** What weather it takes to bring a tree down, in words; a part that nobody judged is never said to hold. */
describe('the likelihood of failure does not reassure', () => {
  property('of a tree that moves it is imminent', tree => {
    const [sign] = moving(tree);
    const least = sign && likelihoodOf(tree).found?.range?.least;
    return sign && least !== 'imminent' ? `it is ${least} at least: ${sign}` : undefined;
  });

  property('of a part that is not judged nothing rules out the worst', tree => {
    const part = likelihoodOf(tree).found?.parts.find(
      ({ standing, range }) => standing === 'not judged' && range && range.most !== 'imminent',
    );
    return part && `${part.range!.most} at the most, and not judged: ${part.name}`;
  });

  property('a reading that says less never lowers the most that a part is liable to', tree => {
    // What the codes say of it stands alone where no gust is known any more.
    const figured = (one: OrdinaryTree) =>
      (likelihoodOf(one).found?.parts ?? []).filter(
        ({ safety }) => safety?.criticalWind && safety.notJudged === undefined,
      );
    const before = figured(tree);
    if (before.length === 0) return undefined;
    for (const { what, tree: changed } of widened(tree)) {
      const after = figured(changed);
      const lower = before.find(({ subject, part, range }) => {
        const now = after.find(one => one.subject === subject && one.part === part);
        return range && now?.range && rank(now.range.most) < rank(range.most);
      });
      if (lower) return `${lower.part} was ${lower.range!.most} at the most: ${lower.name}, ${what}`;
    }
    return undefined;
  });

  property('a rating below all that the figures allow is told, unless the reason is given', tree => {
    const { rated } = likelihoodOf(tree);
    const found = findingsOn(tree).filter(({ rule }) => rule === 'rating-below-figures').length;
    const low = rated.filter(({ isLower, risk }) => isLower && !risk.because).length;
    return found === low ? undefined : `${found} findings on ${low} ratings that are too low: rated`;
  });
});

/** Pages and dates that owners read are believed more than figures. */
describe('what the owner reads does not reassure', () => {
  property('a page does not say that no open defect is on record where a sign is', async tree => {
    const [sign] = [...moving(tree), ...farBeyond(tree)];
    if (!sign) return undefined;
    const page = await clientPage(tree);
    return page.includes('No open defect is on record')
      ? `the page says that no open defect is on record: ${sign}`
      : page.includes('Nothing beyond the next inspection')
        ? `the page advises nothing beyond the next inspection: ${sign}`
        : undefined;
  });

  property('a tree that moves is looked at again within a year', tree => {
    const [sign] = moving(tree);
    const [late] = appointmentsNamed(tree, 're-inspection').filter(({ to }) => to > TODAY + 366);
    return sign && late ? `the next look is more than a year away: ${sign}` : undefined;
  });
});

/** Whoever measures less exactly must not get a better answer: else nobody would measure. */
/** Something on it is said not to be judged; a look that is planned or a person's rating may answer that in `check`. */
const isUnjudged = (tree: OrdinaryTree): boolean =>
  weighed(tree).signs.some(({ standing }) => standing === 'not judged');

property('a reading that says less never turns an error into silence', tree => {
  const before = findingsOn(tree);
  const errors = before.filter(found => isError(found) && !found.accepted);
  if (errors.length === 0) return undefined;
  for (const { what, tree: changed } of widened(tree)) {
    const after = findingsOn(changed);
    const lost = errors.find(error => !isStillTold(error, before, after));
    if (lost && !isUnjudged(changed)) return `${lost.rule} falls silent: ${told(lost)}, ${what}`;
  }
  return undefined;
});

/** Else the way through the gate is to delete the line that it speaks of. */
property('a record of evidence that is taken out silences nothing but what is about itself', tree => {
  const before = findingsOn(tree).filter(({ level }) => level !== 'note');
  if (before.length === 0) return undefined;
  for (const change of withoutEvidence(tree)) {
    const { what } = change;
    const after = findingsOn(change.tree);
    const lost = before.find(found => !isAbout(found, change) && !isStillTold(found, before, after));
    if (lost && !isUnjudged(change.tree))
      return `${lost.rule} falls silent without ${what.split(' of ')[0]}: ${told(lost)}, ${what}`;
  }
  return undefined;
});

/** Rules, subjects and levels, as they are the same however the text is written. */
const essence = (tree: OrdinaryTree): readonly string[] =>
  findingsOn(tree)
    .map(({ rule, subject, level }) => `${rule}: ${subject}, ${level}`)
    .sort();

const difference = (one: readonly string[], other: readonly string[]): string | undefined => {
  const left = [...other];
  for (const entry of one) {
    const at = left.indexOf(entry);
    if (at < 0) return `${entry} is lost`;
    left.splice(at, 1);
  }
  return left[0] && `${left[0]} has come`;
};

/** A verdict is about the tree, not about who wrote it down. */
describe('the same tree is judged the same', () => {
  property('in other units', tree => difference(essence(tree), essence(inOtherUnits(tree))));

  property('in another order of blocks and lines', tree =>
    difference(essence(tree), essence(inOtherOrder(tree))),
  );
});

/** What kills people is told first of all, whatever else is planned or missing. */
property('a tree that moves or is far beyond its limits over a target, unanswered, has an error', tree => {
  const open = unanswered(tree);
  if (!hasTargetInReach(open)) return undefined;
  const [sign] = [...moving(open), ...farBeyond(open)];
  // A rating that does not follow from its own inputs is an error of the sheet.
  const ofTheTree = (found: Finding) => groupOf(found) !== 'records' && found.rule !== 'rating-mismatch';
  if (!sign || findingsOn(open).some(found => isError(found) && ofTheTree(found))) return undefined;
  const kind = sign.replace(/ [ABC]$| of \w+$/, '');
  return `no error for ${kind}: ${sign}`;
});

/** A gate that cries at every tree is switched off. */
property('a sound tree draws no error about its structure', tree => {
  if (!isSound(tree)) return undefined;
  const error = findingsOn(tree).find(found => isError(found) && groupOf(found) === 'structure');
  return error && `${error.rule} on a sound tree: ${told(error)}`;
});

/** Every property speaks of enough of the trees that are drawn. */
test('the trees drawn are of all kinds', async () => {
  const kinds: Readonly<Record<string, (tree: OrdinaryTree) => boolean>> = {
    sound: isSound,
    moving: tree => moving(tree).length > 0,
    'far beyond': tree => farBeyond(tree).length > 0,
    'not judged': tree => unjudged(tree).length > 0,
    'fungus at the butt': tree => buttFungi(tree).length > 0,
    growing: tree => growing(tree).length > 0,
    'with a target in reach': hasTargetInReach,
    'held by a support': tree => blocksNamed(tree, 'support').length > 0,
    'with a piece on a rope': tree =>
      blocksNamed(tree, 'prescription').some(({ lines }) => lines.some(({ word }) => word === 'rigged')),
    'rated for a risk': tree => likelihoodOf(tree).rated.length > 0,
    'with work prescribed': tree => blocksNamed(tree, 'prescription').length > 0,
    'with an error': tree => findingsOn(tree).some(isError),
  };
  const seen = new Map(Object.keys(kinds).map(kind => [kind, 0]));
  await holds(tree => {
    for (const [kind, is] of Object.entries(kinds)) if (is(tree)) seen.set(kind, seen.get(kind)! + 1);
    return undefined;
  });
  for (const [kind, count] of seen) if (count < 5) throw new Error(`${count} trees are ${kind}`);
});
