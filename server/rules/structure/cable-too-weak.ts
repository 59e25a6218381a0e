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
      message: `${capital(name)}: its strength cannot be checked. ${capital(judged.load)}.`,
      remedy: 'Record what is missing, or have a qualified person determine the load on the cable.',
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
      message: `${capital(name)}: no working load is recorded. Between ${fork} it may have to carry ${forceUp(load.needed.high, tree)}.`,
      remedy:
        'Record the working load (rated) or the breaking load (breaking) of its weakest component, from the certificate.',
    };
  else if (standing === 'exceeds' || standing === 'may exceed')
    yield {
      at: spanOf(cable.rated ?? cable.breaking!),
      grade: standing,
      subject: cable.id.value,
      message: `${capital(name)} has a working load of ${forceDown(rated.low, tree)}. Between ${fork} it ${standing === 'exceeds' ? 'has' : 'may have'} to carry ${load.needed.low > 0 ? `${forceUp(load.needed.low, tree)} to ` : 'up to '}${forceUp(load.needed.high, tree)} in the design wind${weakWords(
        load.fork.part.weak,
      )
        .map(words => `. ${capital(words)}`)
        .join('')}. Required: ${strandWords(load, tree)}.`,
      remedy: 'Have a qualified person design the cable, or install it higher.',
    };
}

export const cableTooWeak: Rule = {
  name: 'cable-too-weak',
  group: 'structure',
  level: 'warning',
  summary: 'a cable that may be too weak for the fork it holds',
  sources: [cite('kane-clouston-2008'), cite('slater-ennos-2015'), cite('ehs-strand'), cite('practice')],
  explanation:
    'Checks installed cables, and prescribed ones that state a rating. The required working load comes from the moment that opens the fork. That moment is taken from the more heavily loaded stem, in the design wind and with its own weight. All of it is taken to act in the plane of the fork. It is multiplied by the limit cable-load-margin. What the fork certainly resists is deducted, but nothing for a cracked fork. The result is divided by the height of the cable above the fork.\n\nAt the upper end of the range, the cable must also carry the whole load in case the fork resists nothing. The working load is the stated one, or one fifth of the breaking load.\n\nA stem with no crown of its own on record may carry any share of the tree’s crown, so the range is wide. A cable without a rating is a note, and so is one whose fork has no figures.',
  limitations:
    'Braces, props and guys. The sizes of bolts and lags, for which no table was read. Cables that hold limbs or more than two stems. The wood around the bolts.',
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
