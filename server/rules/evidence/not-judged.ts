import { isAnsweredOrLate, isRatedBelowHigh } from '../../assess/answering.ts';
import { reachOf } from '../../assess/reach.ts';
import { settleOf, signsOf } from '../../assess/signs.ts';
import { counted } from '../../base/words.ts';
import { isReadingDamaged } from '../../facts/damage.ts';
import { cite } from '../../practice/citation.ts';
import type { TreeContext } from '../context.ts';
import { type Rule, type RuleReport, spanOf } from '../rule.ts';

function* check(context: TreeContext): Iterable<RuleReport> {
  const { tree, settings, today } = context;
  const signs = signsOf(context).filter(
    sign =>
      sign.standing === 'not judged' &&
      !(sign.defect && isReadingDamaged(tree, sign.defect)) &&
      !isAnsweredOrLate(sign, context) &&
      !isRatedBelowHigh(sign, context),
  );
  if (signs.length === 0) return;
  const [first, ...others] = signs;
  const { targets } = reachOf(tree, settings, today);
  const list = signs.map(({ name, why }) => `${name} (${why})`).join('; ');
  yield {
    at: spanOf(first!.at),
    grade: 'stated',
    level: targets === 'open' ? 'warning' : 'note',
    subject: tree.tag.value,
    message: `${counted(signs.length, 'sign could', 'signs could')} not be judged: ${list}.`,
    remedy:
      `${settleOf(first!, context) ?? ''} Or have a qualified person rate the risk${tree.targets.length > 0 ? ' to every target in reach' : ''}.`.trim(),
    related: others.map(sign => ({
      start: sign.at.start,
      end: sign.at.end,
      message: settleOf(sign, context) ?? `${sign.name} could not be judged.`,
    })),
  };
}

export const notJudged: Rule = {
  name: 'not-judged',
  group: 'evidence',
  level: 'note',
  summary: 'recorded signs that could not be judged',
  sources: [cite('a300-9'), cite('practice')],
  explanation:
    'Some recorded signs cannot be compared with any figure, because no published figure exists or a reading is missing. Reporting nothing would suggest they had been checked. All such signs of a tree are listed in one finding, each with the reading that would settle it. Examples are a cavity with no diameter, or with neither wall nor depth measured, and a canker with no share of the circumference. Others are a fungus, which marks a location but no extent, a crack of unrecorded depth, and roots with no recorded share. So are a pull test that gives no figure or predates root damage, a lean not recorded as steady or changing, and a union or ground that was not inspected. SIGNS.md lists them.\n\nIt is a warning with a target in reach, otherwise a note. It is resolved by a reading, by planned work or a follow-up, or by a rating of low or moderate from a qualified person for every target in reach.',
  limitations:
    'Signs that a figure can judge. Trees that have been removed. Signs whose record has a syntax error, which is reported instead.',
  appliesTo: ['lean', 'condition', 'parts', 'defects', 'pull tests'],
  rests: 'safety',
  acceptable: true,
  examples: [
    {
      title: 'Reported once, with a list; a warning near a path',
      text: `tree 111
  dbh 41 in
  inspection 2026-05-04 from ground
  defect A cavity #! note stated
    on trunk at 18 ft
    depth > 11 in
  defect B fungus
    on trunk at 1 ft
    species Kretzschmaria deusta
  defect C crack
    length 4 ft

tree 112
  inspection 2026-05-04 from ground
  defect A cavity #! warning stated
    diameter 26 in
    depth unseen
  target "Path"
    distance 6 ft
`,
    },
    {
      title: 'A crown that dies back, and got worse',
      text: `tree 114
  species Quercus robur
  inspection 2023-05-04 from ground
    dieback 10 %
  inspection 2026-05-06 from ground
    dieback 35 % #! note stated
`,
    },
    {
      title: 'Measured; rated by a qualified person; to be drilled; closed',
      text: `person RV "Ruth Varga"
  qualified consulting arborist

tree 113
  inspection 2026-05-04 from ground
  defect A decay
    diameter 26 in
    wall 8 in

tree 114
  inspection 2026-05-04 from ground
    by RV
  defect A crack
    length 1 ft
  target "Path"
    distance 6 ft
  risk "Path" from A
    rating low

tree 115
  inspection 2026-05-04 from ground
  defect A cavity
    depth unseen
  follow-up F1 resistance drilling
    of A
    due 2026-09-01

tree 116
  inspection 2026-05-04 from ground
  defect A crack
    closed 2026-05-20 "limb removed"
`,
    },
  ],
  check,
};
