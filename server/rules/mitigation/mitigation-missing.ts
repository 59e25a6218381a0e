import { isAnsweredOrLate, NOTHING_OPEN, nothingOpenFor } from '../../assess/answering.ts';
import { enoughForParts } from '../../assess/enough-reduction.ts';
import { openPrescriptions } from '../../assess/jobs.ts';
import { jobName } from '../../assess/prescriptions.ts';
import { partsBehind } from '../../assess/pull-tests.ts';
import { type ReachedTargets, reachOf } from '../../assess/reach.ts';
import { type Sign, signsOf } from '../../assess/signs.ts';
import { capital, listed } from '../../base/words.ts';
import { isReadingDamaged } from '../../facts/damage.ts';
import type { Prescription } from '../../facts/types.ts';
import { cite } from '../../practice/citation.ts';
import type { TreeContext } from '../context.ts';
import { type Level, plan, type Remedy, type Rule, type RuleReport } from '../rule.ts';

/** Covered by strength-loss, joined-unproved and included-bark-union. */
const ELSEWHERE: ReadonlySet<string> = new Set(['cavity', 'decay', 'joined', 'included bark']);

const isOurs = ({ kind, standing, why }: Sign): boolean =>
  (standing === 'exceeds' || standing === 'may exceed') &&
  !ELSEWHERE.has(kind) &&
  !(kind === 'union' && why.includes('included bark'));

const LEVELS: Readonly<Record<ReachedTargets['targets'], readonly [exceeds: Level, mayExceed: Level]>> = {
  open: ['error', 'warning'],
  closed: ['warning', 'note'],
  'not recorded': ['warning', 'note'],
  'out of reach': ['note', 'note'],
};

const whereWords = ({ targets, open }: ReachedTargets): string => {
  switch (targets) {
    case 'open':
      return ` ${listed(open.map(({ name }) => `"${name.value}"`))} ${open.length === 1 ? 'is' : 'are'} in reach.`;
    case 'closed':
      return ' The targets in reach are temporarily closed.';
    case 'not recorded':
      return ' No target is recorded.';
    case 'out of reach':
      return ' No recorded target is in reach.';
  }
};

const REMEDIES: Readonly<Record<Sign['part'], string>> = {
  'roots and ground':
    'Have the root crown excavated or a static pull test made, guy the tree, or remove it. Pruning alone does not secure a root plate.',
  stem: 'Have it measured, support it, or remove the stem or the tree. Or keep it with a reason, an interval and a rating by a qualified person.',
  union: 'Cable or brace the union, reduce or remove the stem, or have the union inspected from above.',
  limb: 'Remove, reduce or support the branch. Or close the target until that is done.',
  'whole tree':
    'Remove the tree, leave a habitat snag of a stated height, or keep the tree and move the target.',
};

const OTHERWISE = 'guy the tree, or remove it';

/** Another wind load changes what a pull test found: an open reduction may be made enough. */
function remedyByPull(
  sign: Sign,
  context: TreeContext,
): (Remedy & { readonly tooLittle?: Prescription }) | undefined {
  const { tree, site, settings } = context;
  const parts = partsBehind(sign, tree, site, settings);
  if (!parts) return undefined;
  const reduction = openPrescriptions(tree).find(
    ({ kind, for: named }) =>
      kind.value === 'reduce' && (named.length === 0 || named.some(({ value }) => value === sign.subject)),
  );
  if (!reduction)
    return {
      remedy: `Reduce the crown until the root plate and the stem can bear the remaining wind load, ${OTHERWISE}. soundwood weigh gives the amount and what that leaves.`,
    };
  const lines = enoughForParts(context, reduction, parts);
  return lines
    ? {
        remedy: `At the worst case of the readings, ${jobName(reduction)} is enough with ${lines.join(', ')}. Otherwise, ${OTHERWISE}.`,
        advice: [plan(reduction.at, ...lines)],
        tooLittle: reduction,
      }
    : {
        remedy: `No reduction within the dose limits is certain to be enough; soundwood weigh shows what the maximum would leave. ${capital(OTHERWISE)}.`,
        tooLittle: reduction,
      };
}

function* check(context: TreeContext): Iterable<RuleReport> {
  const { tree, settings, today } = context;
  const signs = signsOf(context).filter(isOurs);
  if (signs.length === 0) return;
  const reach = reachOf(tree, settings, today);
  for (const sign of signs) {
    if (isAnsweredOrLate(sign, context) || (sign.defect && isReadingDamaged(tree, sign.defect))) continue;
    const sure = sign.standing === 'exceeds';
    const lacks = nothingOpenFor(sign, context);
    const byPull = lacks === NOTHING_OPEN ? remedyByPull(sign, context) : undefined;
    const { remedy, advice = [] } = byPull ?? {
      remedy:
        lacks === NOTHING_OPEN ? REMEDIES[sign.part] : 'Have the work done now, or set a new work window.',
    };
    yield {
      at: sign.at,
      grade: sure ? 'exceeds' : 'may exceed',
      level: LEVELS[reach.targets][sure ? 0 : 1],
      subject: sign.subject,
      message: `${capital(sign.name)}: ${sign.why}. ${capital(byPull?.tooLittle ? `${jobName(byPull.tooLittle)} is not certain to bring it within its limit` : lacks)}.${whereWords(reach)}`,
      remedy: `${remedy}${sign.settle && !sure ? ` ${sign.settle}` : ''}`,
      advice,
    };
  }
}

export const mitigationMissing: Rule = {
  name: 'mitigation-missing',
  group: 'mitigation',
  level: 'error',
  summary: 'a sign beyond its published threshold with nothing prescribed',
  sources: [
    cite('usda-hazard-codes'),
    cite('usda-hazard-trees-1996'),
    cite('bmp-risk-2017'),
    cite('practice'),
  ],
  explanation:
    'Compares every sign other than cavities and decay with its published threshold. A canker, wound, loose bark or girdling root has a share of the circumference (circumference-share; it may be serious from circumference-caution). Lost or decayed roots have a share (root-loss), and a trench has a distance (root-cut-distance). A pull test gives safety factors of root plate and stem in the design wind (safety-factor). Deadwood has a diameter (dead-wood-diameter) or a share of the crown. A steady lean has an angle (lean). The weight of a leaning tree loads its intact stem, alone (own-weight-stress) and in the design wind (safety-factor). A crack into the soil and a dead tree are beyond any threshold.\n\nSigns are reported when nothing is prescribed for them and no inspection is planned. With a target in reach, a sign beyond its threshold is an error and one that may be beyond it is a warning. Where no target is on record, or all in reach are closed, each is one severity lower. What counts as addressing the sign depends on the part of the tree: see SIGNS.md.',
  limitations:
    'Signs below the thresholds. For cavities and decay, see strength-loss; for unions with included bark, included-bark-union. For movement, see movement; for signs that could not be judged, not-judged.',
  appliesTo: ['lean', 'condition', 'defects', 'dead', 'parts', 'pull tests'],
  acceptable: true,
  caution:
    'A published threshold marks the point at which a decision is needed. Nothing below it is certified safe. The person on site decides.',
  examples: [
    {
      title: 'A dead ash over a school door, with half its roots gone; a canker around half the stem',
      text: `tree 41
  height 60 ft
  vigor dead #! error exceeds
  inspection 2026-05-04 from ground
  defect A root loss #! error exceeds
    share 50 % of roots
  target "School door"
    distance 20 ft
    occupied frequent

tree 42
  inspection 2026-05-04 from ground
  defect B canker #! warning exceeds
    on trunk at 4 ft
    share 60 % of circumference
`,
    },
    {
      title: 'A steady lean that the stem may not bear, by its own weight and in the design wind',
      text: `site "Tansy Creek"
  wind 92 mph, exposure B

tree 50
  species Acer rubrum
  dbh 24 in
  height 62 ft
  crown from 20 ft, 30 ft wide
  lean 36 deg toward E, steady #! warning may exceed
  inspection 2026-05-04 from ground
  target "Path"
    distance 20 ft toward E
    occupied frequent
    kind people
`,
    },
    {
      title: 'A trench too near; a root plate that a pull test finds too weak',
      text: `site "Lane"
  wind 92 mph, exposure B

tree 47
  dbh 30 in
  inspection 2026-05-04 from ground
  defect A trench #! warning exceeds
    distance 4 ft toward N

tree 48
  species Acer macrophyllum
  dbh 30 in
  height 60 ft
  crown from 12 ft, 46 ft wide
  inspection 2026-05-04 from ground
  pull test 2026-05-12 #! warning exceeds
    force 900 lbf
    rope at 26 ft, 25 deg from horizontal
    inclination 0.22 deg, 0.24 deg
    soil moist
`,
    },
    {
      title: 'Moderate by the codes; 4 to 6 in deadwood over a bench; possibly too few roots',
      text: `tree 43
  inspection 2026-05-04 from ground
  defect A canker #! warning may exceed
    share 35 % of circumference
  defect B dead wood #! error exceeds
    diameter 5..6 in
  defect C root loss #! warning may exceed
    share 15..40 % of roots
  target "Bench"
    distance 8 ft
    occupied occasional
`,
    },
    {
      title: 'More than half of a maple’s crown dead, more than a third of a pine’s',
      text: `tree 47
  species Acer rubrum
  inspection 2026-05-04 from ground
  defect A dead wood #! warning exceeds
    share 60 % of crown

tree 48
  species Pinus ponderosa
  inspection 2026-05-04 from ground
  defect A dead wood #! warning exceeds
    share 40 % of crown
`,
    },
    {
      title: 'Prescribed, but not done by the end of its work window',
      text: `tree 49
  inspection 2026-03-04 from ground
  defect A root loss #! error exceeds
    share 40 % of roots
  target "Bench"
    distance 8 ft
    occupied occasional
  prescription R1 guy
    for A
    between 2026-04-06..2026-04-17
`,
    },
    {
      title: 'Small, thin, few; removed; to be investigated; no one nearby',
      text: `tree 44
  inspection 2026-05-04 from ground
  defect A wound
    share 10 % of circumference
  defect B dead wood
    diameter 2 in
  defect C root loss
    share 10 % of roots
  target "Bench"
    distance 8 ft

tree 45
  inspection 2026-05-04 from ground
  defect A dead wood
    diameter 6 in
  defect B root loss
    share 50 % of roots
  target "Bench"
    distance 8 ft
  prescription R1 clean
    for A
  follow-up F1 root inspection
    of B
    due 2026-06-20

tree 46
  vigor dead
  prescription R1 fell
`,
    },
  ],
  check,
};
