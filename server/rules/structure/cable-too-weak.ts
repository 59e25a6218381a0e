import { forceDown, forceUp, strandWords } from '../../assess/cable-sizes.ts';
import { cablesOf, type RecordedCable } from '../../assess/cables.ts';
import { judgedCable } from '../../assess/supports.ts';
import { weakWords } from '../../assess/weak-words.ts';
import { capital } from '../../base/words.ts';
import { cite } from '../../practice/citation.ts';
import type { TreeContext } from '../context.ts';
import { type Rule, type RuleReport, spanOf } from '../rule.ts';

function* check(context: TreeContext): Iterable<RuleReport> {
  for (const one of cablesOf(context.tree))
    if (!one.isPlanned || one.cable.rated || one.cable.breaking) yield* reportsOn(one, context);
}

function* reportsOn(
  { cable, holds, name: called, isPlanned }: RecordedCable,
  { tree, site, settings }: TreeContext,
): Iterable<RuleReport> {
  const judged = judgedCable(cable, holds, tree, site, settings);
  if (!judged) return;
  const name = isPlanned ? `${called} as prescribed` : called;
  if (typeof judged.load === 'string') {
    yield {
      at: spanOf(cable.id),
      grade: 'stated',
      level: 'note',
      subject: cable.id.value,
      message: `${capital(name)}: whether it is strong enough is not judged: ${judged.load}.`,
      remedy: 'Write that down, or have a qualified person say what the cable has to carry.',
    };
    return;
  }
  const { load, rated, standing } = judged;
  const fork = load.fork.stems.map(stem => stem.name.value).join(' and ');
  if (!rated)
    yield {
      at: spanOf(cable.id),
      grade: 'stated',
      level: 'note',
      subject: cable.id.value,
      message: `${capital(name)}: its working load is not recorded; between ${fork} it may have to carry ${forceUp(load.needed.high, tree)}.`,
      remedy:
        'Write down what its weakest piece may carry (rated) or breaks at (breaking), from its certificate.',
    };
  else if (standing === 'exceeds' || standing === 'may exceed')
    yield {
      at: spanOf(cable.rated ?? cable.breaking!),
      grade: standing,
      subject: cable.id.value,
      message: `${capital(name)} may carry ${forceDown(rated.low, tree)}, but between ${fork} it ${standing === 'exceeds' ? 'has' : 'may have'} to carry ${load.needed.low > 0 ? `${forceUp(load.needed.low, tree)} to ` : 'up to '}${forceUp(load.needed.high, tree)} in the design wind${weakWords(
        load.fork.part.weak,
      )
        .map(words => `; ${words}`)
        .join('')}. By these figures: ${strandWords(load, tree)}.`,
      remedy: 'Have a qualified person design it, or fix it higher.',
    };
}

export const cableTooWeak: Rule = {
  name: 'cable-too-weak',
  group: 'structure',
  level: 'warning',
  summary: 'a cable that may be too weak for the fork that it holds',
  sources: [cite('kane-clouston-2008'), cite('slater-ennos-2015'), cite('ehs-strand'), cite('practice')],
  explanation:
    'For cables in place, and for prescribed ones that state a rating: takes the moment that opens the fork, by the more heavily loaded stem in the design wind and with its own weight, as if all of it acted in the plane of the fork, times the limit cable-load-margin, less what the fork certainly bears, over the height of the cable above the fork; of a cracked fork nothing is taken off. At the upper end the cable must also carry all of the load if the fork bore nothing. The working load is what is stated, or a fifth of the breaking load.\n\nA stem without a crown of its own on record may carry any part of that of the tree; the range is wide then. A cable without a rating is a note, and so is one whose fork has no figures.',
  limitations:
    'Braces, props and guys, and sizes of their bolts and lags, for which no table was read; cables that hold limbs, or more than two stems; the wood around the bolts.',
  appliesTo: ['parts'],
  acceptable: true,
  examples: [
    {
      title:
        'Three cables in a cracked pair of stems: too weak, not rated, perhaps too weak; a fork without figures',
      text: `site "Tansy Creek"
  wind 92 mph, exposure B

tree 985
  species Acer rubrum
  dbh 36 in
  height 80 ft
  crown from 20 ft, 50 ft wide
  stem East
    from 12 ft
    diameter 22 in
    height 80 ft
    crown from 25 ft, 30 ft wide
    union cracked, with West
    lean 10 deg toward E
  stem West
    diameter 20 in
    height 78 ft
    crown from 25 ft, 30 ft wide
    lean 10 deg toward W
  support C1 cable
    holds East, West
    fixed at 60 ft, 5 deg from horizontal
    breaking 500 lbf #! exceeds
    installed 2024-03-02
  support C2 cable #! note stated
    holds East, West
    fixed at 60 ft
    installed 2024-03-02
  support C3 cable
    holds East, West
    fixed at 60 ft, 5 deg from horizontal
    rated 6500 lbf #! may exceed
    installed 2024-03-02

tree 987
  stem East
    union included bark, with West
  stem West
  support C1 cable #! note stated
    holds East, West
    installed 2024-03-02
`,
    },
    {
      title: 'A strong cable; a prescription that leaves the size open',
      text: `site "Tansy Creek"
  wind 92 mph, exposure B

tree 986
  species Acer rubrum
  dbh 18 in
  height 40 ft
  crown from 12 ft, 24 ft wide
  stem East
    from 9 ft
    diameter 9 in
    height 40 ft
    crown from 14 ft, 12 ft wide
    union included bark, with West
  stem West
    diameter 9 in
    height 38 ft
    crown from 14 ft, 12 ft wide
  support C1 cable
    holds East, West
    fixed at 33 ft, 5 deg from horizontal
    rated 10000 lbf
    installed 2024-03-02
  prescription R1 cable
    for East
`,
    },
  ],
  check,
};
